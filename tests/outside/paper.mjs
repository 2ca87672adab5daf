// Prints a report as its documentation says, with the very line that stands there, and reads the
// paper: pages, their numbers, the running title, the end mark, the opening whole on the first page,
// the contents where there are several panels, and every number of a printed table in one piece.
//
//   node paper.mjs DOCUMENTATION.md WRITE_UP_DIR
import { execFileSync, execSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Faults } from './tools.mjs';

const [documentation, write_up] = process.argv.slice(2);
const faults = new Faults();
const line = readFileSync(documentation, 'utf8').split('\n').find(l => l.startsWith('chromium --headless'));
if (!line) {
  console.error(`${documentation} has no line that begins with "chromium --headless"`);
  process.exit(1);
}
const folder = mkdtempSync(join(tmpdir(), 'hailwright-paper-'));
try {
  // As root, which readers are not, Chromium runs without its sandbox only.
  const root = process.getuid() === 0 ? ' --no-sandbox' : '';
  const command = line.replace('chromium --headless', `chromium --headless${root} --user-data-dir=${folder}/own`)
    .replace('DIR', resolve(write_up));
  execSync(command, {
    cwd: folder, stdio: ['ignore', 'ignore', 'pipe'], timeout: 120000,
  });
  const paper = join(folder, 'report.pdf');
  const pages = Number(/^Pages:\s+(\d+)/m.exec(execFileSync('pdfinfo', [paper], { encoding: 'utf8' }))?.[1]);
  if (!(pages >= 3 && pages <= 60)) faults.add(write_up, `prints on ${pages} pages`);
  const texts = execFileSync('pdftotext', ['-layout', paper, '-'], { encoding: 'utf8' }).split('\f');
  const html = readFileSync(join(write_up, 'report.html'), 'utf8');
  const read = text => text.replace(/<[^>]*>/g, '').replace(/&lt;/g, '<').replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"').replace(/&#39;/g, "'").replace(/&amp;/g, '&');
  const squeezed = text => text.replace(/\s+/g, ' ');
  const words = read(/<title>(.*?)<\/title>/s.exec(html)[1]);

  const opening = /<section class="opening.*?<\/section>/s.exec(html)[0];
  const first = squeezed(texts[0]);
  const last_caution = squeezed(read(opening.match(/<li>(.*?)<\/li>/gs).at(-1)));
  for (const part of [read(/<figcaption>(.*?)</s.exec(opening)[1]), last_caution])
    if (!first.includes(squeezed(part))) faults.add('page 1', `does not show "${part}"`);
  if (html.includes('class="several"') && !/^\s*Contents\s*$/m.test(texts.join('\n')))
    faults.add(write_up, 'has no contents on paper');

  const printed = new Set(squeezed(texts.join(' ')).split(' '));
  let numbers = 0;
  for (const [, classes, table] of html.matchAll(/<div class="(scroll[^"]*)"[^>]*>(<table>.*?<\/table>)/gs)) {
    if (classes.includes('off-paper')) continue;
    for (const [, cell] of table.matchAll(/<td class="number">(-?[0-9.]+)<\/td>/g)) {
      ++numbers;
      if (!printed.has(cell)) faults.add(write_up, `does not print ${cell} in one piece`);
    }
  }
  if (numbers < 20) faults.add(write_up, `prints ${numbers} numbers in tables`);
  for (let page = 1; page <= pages; ++page) {
    const text = texts[page - 1];
    if (!new RegExp(`\\b${page} / ${pages}\\b`).test(text)) faults.add(`page ${page}`, 'has no number');
    if (page > 1 && !text.includes(words)) faults.add(`page ${page}`, `has no running title "${words}"`);
    if (text.trim().split('\n').length < 3) faults.add(`page ${page}`, 'is empty but for its margin');
  }
  if (!/End of report/.test(texts.join(''))) faults.add(write_up, 'has no end mark');
  faults.end(`${write_up}: ${pages} pages`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
