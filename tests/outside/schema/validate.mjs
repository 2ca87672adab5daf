// Holds JSON and YAML files (of YAML 1.2) against a JSON Schema (2020-12).
//
//   node validate.mjs [--modules DIR] [--must-fail] SCHEMA FILE...
//
// With --must-fail every file must be refused by the schema. Exit: 0 as wanted, 1 not, 2 usage.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { libraries, stop, validatorOf } from './validator.mjs';

function parseArguments(words) {
  const options = { mustFail: false, files: [] };
  while (words.length > 0) {
    const word = words.shift();
    if (word === '--modules') options.modules = words.shift();
    else if (word === '--must-fail') options.mustFail = true;
    else options.files.push(word);
  }
  if (options.files.length < 2) stop('node validate.mjs [--modules DIR] [--must-fail] SCHEMA FILE...');
  return options;
}

function readTree(file, load) {
  const text = readFileSync(file, 'utf8');
  if (!/\.ya?ml$/.test(file)) return JSON.parse(text);
  return load('yaml').parse(text, { version: '1.2', uniqueKeys: true });
}

/// What is wrong with a file, a line each; none where it is valid.
function faultsOf(file, validate, load) {
  let tree;
  try {
    tree = readTree(file, load);
  } catch (error) {
    return [`cannot be read: ${error.message.split('\n')[0]}`];
  }
  if (validate(tree)) return [];
  return validate.errors.map(e => `${e.instancePath || '/'} ${e.message} ${JSON.stringify(e.params)}`);
}

const { modules, mustFail, files } = parseArguments(process.argv.slice(2));
const load = libraries(modules);
const [schema, ...instances] = files;
const validate = validatorOf(schema, load);
let wrong = 0;
for (const file of instances) {
  const faults = faultsOf(file, validate, load);
  if ((faults.length > 0) === mustFail) continue;
  wrong += 1;
  console.error([`${file}: ${mustFail ? 'is taken' : 'is refused'}`, ...faults.slice(0, 20)].join('\n    '));
}
console.log(`${instances.length - wrong} of ${instances.length} as wanted by ${path.basename(schema)}`);
process.exit(wrong > 0 ? 1 : 0);
