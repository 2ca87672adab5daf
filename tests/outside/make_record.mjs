// Writes an invented test of any size: a protocol, two panels, a record and its tables.
//
//   node make_record.mjs DIR [--shots 60] [--setups 20] [--readings 200] [--title "Panel A"] [--seed 1]
//
// --setups counts all of them, half before and half after; --readings those of one set-up, half of
// the struck panel and half of the control. Every value is invented; the same arguments give the
// same bytes.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    shots: { type: 'string', default: '60' },
    setups: { type: 'string', default: '20' },
    readings: { type: 'string', default: '200' },
    title: { type: 'string', default: 'Panel A' },
    seed: { type: 'string', default: '1' },
  },
});
const [folder] = positionals;
const [shots, setups, readings, seed] =
  [values.shots, values.setups, values.readings, values.seed].map(Number);
if (!folder || ![shots, setups, readings, seed].every(n => Number.isInteger(n) && n > 0)) {
  console.error('usage: node make_record.mjs DIR [--shots N] [--setups N] [--readings N]');
  process.exit(2);
}

// A linear congruential generator modulo 2^31 and the sum of twelve of its numbers: plenty for
// readings that nobody mistakes for real ones.
let state = seed;
const uniform = () => {
  state = (state * 1103515245 + 12345) % 2147483648;
  return state / 2147483648;
};
const normal = () => Array.from({ length: 12 }, uniform).reduce((a, b) => a + b, -6);

const quoted = text => JSON.stringify(text);
const cell = text => `"${text.replaceAll('"', '""')}"`;
const small = Math.max(1, Math.floor((shots * 2) / 3));
const large = shots - small;
const half = Math.max(1, Math.floor(setups / 2));
const rounds = Math.max(1, Math.floor(readings / 2));

const protocol = `hailwright: protocol 1
title: ${quoted('Invented: ' + values.title)}
decide: {limit: 5 %}
series:
  - {name: small, grade: IEC 61215 25 mm, places: 11, setting: mark 3}
${large > 0 ? '  - {name: large, grade: IEC 61215 35 mm, places: 5, setting: mark 5}\n' : ''}launch: {kind: sling, distance: 3.6 m, height: 1.2 m, aim: level, fastest: 36 m/s, spread: 1.5 %}
speed: {by: trial shots, video: 240 fps, length: 3.00 m, length_accuracy: 5 mm, parallax: 1 %,
        trials: 6, to_panel: 1.8 m}
ice: {water: boiled tap water, freezer: -18 degC, weigh: ten together}
tools:
  meter: {accuracy: 1 % + 3 digits, step: 0.1 W}
  sun: {accuracy: 5 %, step: 1 W/m2}
  thermometer: {accuracy: 2 degC, each_time: 1 K, where: back, kind: infrared}
  scales: {accuracy: 0.2 g, step: 0.1 g}
  calipers: {accuracy: 0.1 mm, step: 0.1 mm}
measure: {compare: control-panel, before: ${half}, after: ${half}, readings: ${rounds}, meters: 1,
          maximum_power: tracker settled, load: power station, redone: [mount, aim, probe, leads]}
`;

const panel = name => `hailwright: panel 1
name: ${quoted(name)}
build: {kind: framed glass, glass: 3.2 mm}
rated: {power: 100 W, open_voltage: 22.1 V, short_current: 5.9 A}
temperature: {power: -0.38 %/K, voltage: -0.29 %/K}
size: 1020 x 510 x 35 mm
cells: {grid: 9 x 4, margin: 25 mm}
junction_box: {at: 510 x 450 mm, size: 90 x 70 mm}
weight: 6.9 kg
price: 89 EUR
came: {bought_by: ${quoted(name)}, from: a shop, on: 2026-05-20, condition: new}
`;

const stages = ['before', 'after'].flatMap(stage =>
  Array.from({ length: half }, (_, i) => ({ stage, number: i + 1 })));
const record = `hailwright: record 1
title: ${quoted(values.title)}
protocol: protocol.yaml
panel: panel.yaml
label: A
control: {panel: panel.yaml, same_model: yes, label: C}
day: {date: 2026-06-14, air: 24 degC, weather: ${quoted(values.title)}}
mounting: ${quoted(values.title)}
panel_at_shots: 26 degC
setups:
${stages.map(s => `  - {name: ${s.stage} ${s.number}, battery: 60 %, date: ${
  s.stage === 'before' ? '2026-06-14' : '2026-06-15'}}`).join('\n')}
tables: {balls: balls.csv, trials: trials.csv, shots: shots.csv, readings: readings.csv}
looks:
  - {when: start, saw: nothing}
  - {when: after small, saw: [{scuff: ${quoted(values.title)}}]}
${large > 0 ? '  - {when: after large, saw: nothing}\n' : ''}conditions: {clean_and_dry: yes, same_leads: yes, same_tools: yes, pre_exposed: yes,
             in_sun_first: 20 min, incidence: 15 deg, incidence_change: 5 deg, since_last_shot: 75 min}
unlike_protocol: [${quoted(values.title)}]
incidents: [${quoted(values.title)}]
disclosure: {bought_by: ${quoted(values.title)}, interests: none, panel_goes: kept and marked}
`;

const balls = `kind,count,together g,diameter mm,diameter mm,diameter mm,note
small,10,77.6,25.3,25.4,25.3,${cell(values.title)}
large,10,212.0,35.3,35.5,35.4,
`;
const trials = 'setting,frames,landed,note\n' + [30, 30, 29.5, 30, 29.5, 30].map(f => `mark 3,${f},in,\n`).join('') +
  (large > 0 ? [26, 25.5, 26, 26, 25.5, 26].map(f => `mark 5,${f},in,\n`).join('') : '');

const throws = (series, count, first, places) => Array.from({ length: count }, (_, i) => {
  const place = first + (i % places);
  const kind = uniform();
  const landed = kind < 0.15 ? 'miss' : kind < 0.2 ? 'broke' : kind < 0.5 ? 'in'
    : `${Math.round(normal() * 20)} x ${Math.round(normal() * 12)} mm`;
  return `A,${series},${place},${landed},${30 + Math.floor(uniform() * 30)},${i === 0 ? cell(values.title) : ''}\n`;
}).join('');
const shotRows = 'panel,series,place,landed,out s,note\n' + throws('small', small, 1, 11) +
  (large > 0 ? throws('large', large, 12, 5) : '');

// From 08:00 on one set-up after the other within twelve hours; the control first, as often as not.
const pace = Math.floor((12 * 60) / half);
let readingRows = 'time,setup,round,panel,power W,sun W/m2,temp degC,skip\n';
for (const { stage, number } of stages) {
  const own = 1 + 0.005 * normal();
  const begin = 8 * 60 + (number - 1) * pace;
  for (let round = 1; round <= rounds; ++round) {
    const minute = begin + Math.floor(((round - 1) * (pace - 5)) / rounds);
    const time = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
    const sun = 880 + 20 * normal();
    for (const label of round % 2 ? ['C', 'A'] : ['A', 'C']) {
      const cellTemp = 45 + 2 * normal();
      const struck = label === 'A' ? own * (stage === 'after' ? 0.985 : 1) : 1;
      const power = 92 * struck * (sun / 1000) * (1 - 0.0038 * (cellTemp + 2 - 25)) * (1 + 0.002 * normal());
      readingRows += `${time},${stage} ${number},${round},${label},` +
        `${power.toFixed(1)},${sun.toFixed(0)},${cellTemp.toFixed(1)},\n`;
    }
  }
}

mkdirSync(folder, { recursive: true });
for (const [name, text] of Object.entries({
  'protocol.yaml': protocol, 'panel.yaml': panel(values.title), 'record.yaml': record,
  'balls.csv': balls, 'trials.csv': trials, 'shots.csv': shotRows, 'readings.csv': readingRows,
}))
  writeFileSync(join(folder, name), text);
