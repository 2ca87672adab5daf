// Energy and means of a log in an analytical database: scan.mjs FILE THREADS [scan|trapezoid]
//
// "scan" sums the powers, since rows are a second apart; "trapezoid" takes the steps of time as the
// others do, which a database does by a window over neighbours. Prints seconds, rows, energy [Wh],
// mean power [W], mean irradiance [W/m2], energy by the counter [Wh].
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

const modules = process.env.HAILWRIGHT_NODE_MODULES;
const require = createRequire(`${modules}/x.js`);
const { DuckDBInstance } = await import(pathToFileURL(require.resolve('@duckdb/node-api')).href);
const [file, threads, way] = process.argv.slice(2);

const instance = await DuckDBInstance.create(':memory:', { threads });
const connection = await instance.connect();
const table = `read_csv('${file.replaceAll("'", "''")}', header = true, delim = ',', quote = '',
  columns = {'time': 'TIMESTAMP', 'power': 'DOUBLE', 'sun': 'DOUBLE', 'temperature': 'DOUBLE',
             'energy': 'DOUBLE'})`;
const scan = `select count(*) as n, sum(power) / 3600 as wh, avg(power) as p, avg(sun) as g,
  max(energy) - min(energy) as counted from ${table}`;
const trapezoid = `select count(*) as n,
  sum((epoch_us(time) - epoch_us(before)) * 1e-6 * (power + power_before) * 0.5) / 3600 as wh,
  avg(power) as p, avg(sun) as g, max(energy) - min(energy) as counted
  from (select time, power, sun, energy, lag(time) over () as before,
        lag(power) over () as power_before from ${table})`;

const begun = performance.now();
const reader = await connection.runAndReadAll(way === 'trapezoid' ? trapezoid : scan);
const seconds = (performance.now() - begun) / 1000;
const row = reader.getRowObjectsJS()[0];
console.log(seconds, Number(row.n), row.wh, row.p, row.g, row.counted);
