// Spoils valid reports in every way that a slip in a writer or a reader could, one slip at a time,
// and demands that the schema refuses each: a key too many or too few in every kind of object, a
// number as text, a word that is in no list, an empty list of sources.
//
//   node slips.mjs [--modules DIR] SCHEMA REPORT...
import { readFileSync } from 'node:fs';
import { libraries, stop, validatorOf } from './validator.mjs';

const words = process.argv.slice(2);
const modules = words[0] === '--modules' ? words.splice(0, 2)[1] : undefined;
const [schema, ...reports] = words;
if (reports.length === 0) stop('node slips.mjs [--modules DIR] SCHEMA REPORT...');
const validate = validatorOf(schema, libraries(modules), false);

/// Keys that a number may have or not.
const optional = new Set(['standard_uncertainty']);

/// Slips of one object: each spoils it and gives back how to mend it.
function* slipsOf(object) {
  yield ['a key too many', () => { object.slip = 1; return () => delete object.slip; }];
  for (const [key, value] of Object.entries(object)) {
    const put = other => () => { object[key] = other; return () => { object[key] = value; }; };
    if (!optional.has(key)) yield [`no ${key}`, () => { delete object[key]; return () => { object[key] = value; }; }];
    if (typeof value === 'number') yield [`${key} as text`, put(String(value))];
    if (typeof value === 'boolean') yield [`${key} as text`, put(value ? 'yes' : 'no')];
    if (typeof value === 'string') yield [`${key} as a number`, put(1)];
    if (key === 'unit' && 'value' in object) yield ['another unit', put('furlong')];
    if (key === 'sources') yield ['no sources', put([])];
    if (key === 'value' && value !== null) yield ['a number missing', put(null)];
  }
}

/// One object of each kind: the same keys at the same place, whatever the numbers of the list.
function* kindsOf(tree, place = '', seen = new Set()) {
  if (tree === null || typeof tree !== 'object') return;
  if (!Array.isArray(tree)) {
    const kind = `${place}: ${Object.keys(tree)}`;
    if (!seen.has(kind)) yield [place, tree];
    seen.add(kind);
  }
  for (const [key, part] of Object.entries(tree)) {
    yield* kindsOf(part, `${place}/${Array.isArray(tree) ? '*' : key}`, seen);
  }
}

/// In words that stand in closed lists nothing else may stand.
const closedWords = ['word', 'reason', 'doubt', 'landing', 'obstacle', 'remark', 'weight', 'compare', 'scope',
  'evaluation', 'shape', 'status', 'gravity', 'build', 'by', 'way', 'limit_answered_by', 'projectile'];

let tried = 0;
let taken = 0;
function demandRefusal(tree, place, what, spoil) {
  const mend = spoil();
  tried += 1;
  if (validate(tree)) {
    taken += 1;
    console.error(`${place || '/'}: ${what} is taken`);
  }
  mend();
}

/// Records of the demo are alike; one of each kind of object is enough, over all of them.
const seen = new Set();
for (const report of reports) {
  const tree = JSON.parse(readFileSync(report, 'utf8'));
  if (!validate(tree)) stop(`${report} is not valid itself`);
  for (const [place, object] of kindsOf(tree, '', seen)) {
    for (const [what, spoil] of slipsOf(object)) demandRefusal(tree, place, what, spoil);
    for (const key of closedWords.filter(k => typeof object[k] === 'string')) {
      const word = object[key];
      demandRefusal(tree, place, `${key} "perhaps"`, () => { object[key] = 'perhaps'; return () => { object[key] = word; }; });
    }
  }
  if (!validate(tree)) stop(`${report} was not mended`);
}
console.log(`${tried - taken} of ${tried} slips refused`);
process.exit(taken > 0 || tried < 1000 ? 1 : 0);
