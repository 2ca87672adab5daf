// A validator that shares no line with hailwright: ajv, from a folder of node modules.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

export function stop(problem) {
  console.error(problem);
  process.exit(2);
}

/// `modules` is a folder node_modules; without it, the one that HAILWRIGHT_NODE_MODULES or else
/// NODE_PATH names.
export function libraries(modules) {
  const named = modules ?? process.env.HAILWRIGHT_NODE_MODULES ?? process.env.NODE_PATH;
  if (!named) stop('no folder of node modules: --modules DIR, HAILWRIGHT_NODE_MODULES or NODE_PATH');
  const folder = path.resolve(named);
  const require = createRequire(path.join(folder, 'any.cjs'));
  return name => {
    try {
      return require(path.join(folder, name));
    } catch (error) {
      return stop(`cannot load ${name} from ${folder}: ${error.message.split('\n')[0]}`);
    }
  };
}

/// A function that checks a tree. `strict`: a word of the schema that the standard does not know is
/// an error, too; but a schema that refines another does not repeat what that one requires.
export function validatorOf(schemaFile, load, allErrors = true) {
  const Ajv = load('ajv/dist/2020').default;
  const formats = load('ajv-formats');
  const ajv = new Ajv({ strict: true, strictRequired: false, allErrors });
  (formats.default ?? formats)(ajv);
  return ajv.compile(JSON.parse(readFileSync(schemaFile, 'utf8')));
}
