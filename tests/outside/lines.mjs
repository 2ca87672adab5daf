// The queries of docs/many-records.md, run by the database that the page names over JSON Lines of
// several records; their answers are held against `--format json` of each record.
//
//   node lines.mjs PROGRAM PAGE FOLDER RECORD...
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Faults, load } from './tools.mjs';

const [program, page, folder, ...records] = process.argv.slice(2);
const { DuckDBInstance } = load('@duckdb/node-api');
const faults = new Faults();

const judged = (...more) => execFileSync(program, ['judge', '--trials', '0', ...more],
  { encoding: 'utf8', maxBuffer: 1 << 28 });
mkdirSync(folder, { recursive: true });
const lines = join(folder, 'records.jsonl');
writeFileSync(lines, judged('--format', 'jsonl', ...records));
const alone = records.map(record => JSON.parse(judged('--format', 'json', record)));

const written = readFileSync(lines, 'utf8').trimEnd().split('\n');
if (written.length !== records.length) faults.add(lines, `has ${written.length} lines`);
written.forEach((line, i) => {
  if (JSON.stringify(JSON.parse(line)) !== JSON.stringify(alone[i]))
    faults.add(records[i], 'its line is not its report alone');
});

const queries = [...readFileSync(page, 'utf8').matchAll(/```sql\n([\s\S]*?)```/g)]
  .map(match => match[1].replaceAll(/'(records\.\w+)'/g, (_, name) => `'${join(folder, name)}'`));
if (queries.length !== 3) faults.add(page, `has ${queries.length} queries; 3 were expected`);
const connection = await (await DuckDBInstance.create(':memory:')).connect();
const answer = async query => (await connection.runAndReadAll(query)).getRowObjectsJS();
const same_rows = (what, found, wanted) => {
  const text = rows => JSON.stringify(rows, (_, value) => typeof value === 'bigint' ? Number(value) : value);
  if (text(found) !== text(wanted)) faults.add(what, `${text(found)}\nwhere the reports say\n${text(wanted)}`);
};

const round = (value, digits) => Number(value.toFixed(digits));
const per_cent = value => value === undefined ? null : round(100 * value.value, 1);
same_rows('losses', await answer(queries[0]),
  alone.flatMap(({ records: [record] }) => record.power.map(({ result }) => ({
    panel: record.title, withstood: record.hardest_withstood, damaged: record.mildest_damaged,
    loss: per_cent(result?.estimate.loss), low: per_cent(result?.estimate.interval.low),
    high: per_cent(result?.estimate.interval.high), beyond_limit: result?.answers.beyond ?? null,
  }))));

const by_panel = (a, b) => a.panel < b.panel ? -1 : a.panel > b.panel ? 1 : a.throw - b.throw;
same_rows('shots', await answer(queries[1]),
  alone.flatMap(({ records: [record] }) => record.series.flatMap(series => series.shots
    .filter(shot => shot.energy)
    .map(shot => ({ panel: record.title, series: series.name, throw: shot.number,
      joules: round(shot.energy.estimate.value, 2), at_least: round(shot.energy.low.value, 2) }))))
    .sort(by_panel));

await answer(queries[2]);
if (statSync(join(folder, 'records.parquet')).size === 0) faults.add('records.parquet', 'is empty');
const [{ n }] = await answer(`select count(*) as n from '${join(folder, 'records.parquet')}'`);
if (Number(n) !== records.length) faults.add('records.parquet', `has ${n} rows`);
faults.end(`${records.length} records, ${queries.length} queries`);
