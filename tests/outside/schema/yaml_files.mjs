// Protocols, panels, records and specimens against docs/schemas/*.schema.json, with a YAML parser and a
// validator that are not ours.
//
//   node yaml_files.mjs PROJECT_FOLDER [NODE_MODULES]   (else HAILWRIGHT_NODE_MODULES)
//
// - every demo, every file of tests/bad_input/good and every example of a format page is taken;
// - every file of tests/bad_input is refused, by the parser or by the schema, but for those in
//   let_through.txt, which says why a schema cannot see what is wrong; and each of those is taken.
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { libraries } from './validator.mjs';

const [root, modules] = process.argv.slice(2);
const load = libraries(modules);
const Ajv = load('ajv/dist/2020').default;
const YAML = load('yaml');

const read = path => readFileSync(join(root, path), 'utf8');
const yamlFiles = folder => readdirSync(join(root, folder))
  .filter(f => f.endsWith('.yaml')).sort().map(f => `${folder}/${f}`);

const kinds = ['protocol', 'panel', 'record', 'columns', 'specimens'];
// Strict: a keyword that the draft does not know is an error. A count may be a number or a text.
const ajv = new Ajv({ strict: true, strictTypes: false, strictRequired: false, allErrors: true });
const schemas = Object.fromEntries(kinds.map(kind => {
  const schema = JSON.parse(read(`docs/schemas/${kind}.schema.json`));
  if (!ajv.validateSchema(schema)) throw new Error(`${kind}: ${ajv.errorsText()}`);
  return [kind, ajv.compile(schema)];
}));

/** What is wrong with a text, in a few lines; empty when nothing is. */
function faults(text) {
  const document = YAML.parseDocument(text, { version: '1.2' });
  const broken = document.errors.map(e => `yaml: ${e.message.split('\n')[0]}`);
  if (broken.length > 0) return broken;
  const value = document.toJS();
  const tried = kinds.filter(kind => String(value?.hailwright).startsWith(kind));
  const validate = schemas[tried[0] ?? 'protocol'];
  if (validate(value)) return [];
  return validate.errors.map(e => `${e.instancePath} ${e.message} ${JSON.stringify(e.params)}`);
}

let failures = 0;
function fail(path, words) {
  failures += 1;
  console.error(`${path}: ${words.join('\n    ')}`);
}

const pageExamples = kinds.map(kind => {
  const page = read(`docs/${kind}-format.md`);
  const begin = page.indexOf('```yaml\nhailwright:') + '```yaml\n'.length;
  return [`docs/${kind}-format.md`, page.slice(begin, page.indexOf('```', begin))];
});
const good = ['protocols/demo', 'protocols/demo/panels', 'protocols/demo/line-up', 'protocols/demo/line-up/panels',
              'protocols/demo/side', 'protocols/demo/stresses', 'protocols/demo/specimens',
              'tests/bad_input/good'].flatMap(yamlFiles);
for (const [path, text] of [...good.map(path => [path, read(path)]), ...pageExamples]) {
  const found = faults(text);
  if (found.length > 0) fail(path, found);
}

const letThrough = new Map(
  read('tests/outside/schema/let_through.txt').split('\n')
    .filter(line => line && !line.startsWith('#'))
    .map(line => [line.slice(0, line.indexOf(':')), line.slice(line.indexOf(':') + 1).trim()]));
const bad = yamlFiles('tests/bad_input');
let refused = 0;
for (const path of bad) {
  const name = path.split('/').pop();
  let found;
  try {
    const bytes = readFileSync(join(root, path));
    found = faults(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch (error) {
    found = [`bytes: ${error.message}`];
  }
  const listed = letThrough.has(name);
  if (found.length === 0 && !listed) fail(path, ['is taken, let_through.txt names no reason']);
  if (found.length > 0 && listed) fail(path, ['is refused, and stands in let_through.txt', ...found]);
  refused += found.length > 0 ? 1 : 0;
}
for (const [name, why] of letThrough) {
  if (!bad.includes(`tests/bad_input/${name}`)) fail('let_through.txt', [`there is no ${name}`]);
  if (!why) fail('let_through.txt', [`no reason for ${name}`]);
}

console.log(`${good.length + pageExamples.length} good files tried, ${refused} of ${bad.length} bad refused`);
process.exit(failures > 0 ? 1 : 0);
