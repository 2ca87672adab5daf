// Opens pages as a reader would and looks for what is wrong with them.
//
//   node pages.mjs [--pictures DIR] [--axe-once] PAGE.html...
//
// At the widths of a telephone, a tablet and a desktop, light and dark: the page fits its width,
// fetches nothing, has no accessibility violation that axe-core finds for WCAG 2.1 A and AA
// (w3.org/TR/WCAG21), its text does not depend on scripts, no words of a picture lie on others or
// outside it, and captions stay in the boxes of their tables. Numbers stand in one line, on a
// screen and on paper, and tables fit their sheet. What a write-up shows first fits the windows
// of usual screens. With --pictures a picture of every page is kept there, to be looked at; with
// --axe-once the accessibility checker looks at the desktop's width alone: on a page of thousands of
// cells it takes seconds a look.
import { mkdirSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { Faults, open_browser, source_of } from './tools.mjs';

const { values, positionals: pages } = parseArgs({
  allowPositionals: true, options: { pictures: { type: 'string' }, 'axe-once': { type: 'boolean' } },
});
if (pages.length === 0) {
  console.error('usage: node pages.mjs [--pictures DIR] PAGE.html...');
  process.exit(2);
}
const widths = [360, 768, 1280];
const height = 800;
/// Windows in which the opening of a write-up stands whole [ours], and the share of their width that
/// its picture has at least [ours].
const windows = [[1024, 768], [1280, 800], [1366, 768], [1440, 900]];
const share_of_picture = 0.45;
/// What A4 and Letter leave between the margins, in pixels of CSS: 180 mm and 186 mm.
const sheet_widths = [680, 703];
const axe = source_of('axe-core/axe.min.js');
const faults = new Faults();

/// What stands wrong in the page as it is laid out now.
const layout_faults = () => {
  const found = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth)
    found.push(`is ${root.scrollWidth} px wide in a window of ${root.clientWidth} px`);
  for (const svg of document.querySelectorAll('svg')) {
    const name = svg.id || svg.querySelector('title')?.textContent;
    const frame = svg.getBoundingClientRect();
    const boxes = [...svg.querySelectorAll('text')]
      .filter(t => t.textContent.trim() !== '')
      .map(t => ({ words: t.textContent.trim(), at: t.getBoundingClientRect() }));
    for (const [i, a] of boxes.entries()) {
      const out = 1.0;
      if (a.at.left < frame.left - out || a.at.right > frame.right + out ||
          a.at.top < frame.top - out || a.at.bottom > frame.bottom + out)
        found.push(`${name}: "${a.words}" reaches out of the picture`);
      for (const b of boxes.slice(i + 1)) {
        // Boxes hold the ascent and descent of the font: only what covers more than a third of the
        // smaller box's height is words on words.
        const wide = Math.min(a.at.right, b.at.right) - Math.max(a.at.left, b.at.left);
        const high = Math.min(a.at.bottom, b.at.bottom) - Math.max(a.at.top, b.at.top);
        if (wide > 1.0 && high > Math.min(a.at.height, b.at.height) / 3)
          found.push(`${name}: "${a.words}" lies on "${b.words}"`);
      }
    }
  }
  return found;
};

/// Numbers and short words that a line's end parts, and captions and tables beyond their boxes.
const table_faults = on_paper => {
  const found = [];
  for (const box of document.querySelectorAll('.scroll')) {
    const frame = box.getBoundingClientRect();
    if (frame.width === 0) continue;  // left to its file
    const caption = box.querySelector('caption');
    const name = (caption?.textContent ?? 'a table').slice(0, 40);
    if (caption && caption.getBoundingClientRect().right > frame.right + 1)
      found.push(`the caption of "${name}" reaches out of its box`);
    if (on_paper && box.querySelector('table').getBoundingClientRect().width > frame.width + 1)
      found.push(`"${name}" is wider than the sheet`);
    for (const cell of box.querySelectorAll('tbody :is(.number, .short):not(.breaks)')) {
      const words = document.createRange();
      words.selectNodeContents(cell);
      const tops = new Set([...words.getClientRects()].map(r => Math.round(r.top)));
      if (tops.size > 1) found.push(`"${name}": "${cell.textContent}" breaks into ${tops.size} lines`);
    }
  }
  return found;
};

const targets = () => [...document.querySelectorAll('[src], [href]')].map(e => ({
  what: e.localName, to: e.getAttribute('src') ?? e.getAttribute('href'),
}));

async function look_at(browser, page_file, width, scheme) {
  const where = `${page_file} (${width} px, ${scheme})`;
  const context = await browser.newContext({
    viewport: { width, height }, colorScheme: scheme, bypassCSP: true,
  });
  const page = await context.newPage();
  const address = pathToFileURL(resolve(page_file)).href;
  page.on('request', r => {
    if (r.url() !== address && !r.url().startsWith('data:')) faults.add(where, `fetches ${r.url()}`);
  });
  page.on('console', m => {
    if (m.type() === 'error' || m.type() === 'warning') faults.add(where, `says ${m.text()}`);
  });
  page.on('pageerror', e => faults.add(where, `fails: ${e.message}`));
  await page.goto(address);
  for (const fault of await page.evaluate(layout_faults)) faults.add(where, fault);
  for (const fault of await page.evaluate(table_faults, false)) faults.add(where, fault);
  // What the accessibility checker finds depends on the width or on the colours, not on both.
  const desktop = width === widths.at(-1);
  if (values['axe-once'] ? desktop && scheme === 'light' : desktop || scheme === 'light')
    await check_accessibility(page, where);
  if (values.pictures) {
    const name = `${basename(dirname(resolve(page_file)))}-${basename(page_file, '.html')}-${width}-${scheme}.png`;
    await page.screenshot({ path: join(values.pictures, name), fullPage: false });
  }
  await context.close();
}

async function check_accessibility(page, where) {
  await page.evaluate(axe);
  const result = await page.evaluate(() => globalThis.axe.run(document, {
    runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice'] },
  }));
  if (result.passes.length === 0) faults.add(where, 'axe-core checked nothing');
  for (const v of result.violations)
    faults.add(where, `${v.id}: ${v.help} (${v.nodes.map(n => n.target.join(' ')).slice(0, 3).join(', ')})`);
}

/// Nothing is loaded from anywhere, and what a reader without scripts sees is the same.
async function compare_without_scripts(browser, page_file) {
  const address = pathToFileURL(resolve(page_file)).href;
  const texts = [];
  for (const javaScriptEnabled of [true, false]) {
    const context = await browser.newContext({ javaScriptEnabled, viewport: { width: 1280, height } });
    const page = await context.newPage();
    await page.goto(address);
    texts.push(await page.locator('body').innerText());
    if (javaScriptEnabled) {
      for (const { what, to } of await page.evaluate(targets)) {
        const link = what === 'a' && to.startsWith('https://');
        const inside = to.startsWith('#') || to.startsWith('data:image/');
        const beside = what === 'a' && /^[A-Za-z0-9]/.test(to) && !to.includes(':');
        if (!link && !inside && !beside) faults.add(page_file, `<${what}> leads to ${to}`);
      }
    }
    await context.close();
  }
  if (texts[0].length < 200) faults.add(page_file, 'has next to no text');
  if (texts[0] !== texts[1]) faults.add(page_file, 'shows something else without scripts');
}

/// What a write-up must show before anybody scrolls, on the screen of a desktop.
async function look_at_first_screen(browser, page_file, [width, height]) {
  const context = await browser.newContext({ viewport: { width, height } });
  const page = await context.newPage();
  await page.goto(pathToFileURL(resolve(page_file)).href);
  const wrong = await page.evaluate(([height, share]) => {
    const opening = document.querySelector('main > .opening');
    if (!opening) return [];
    const found = [];
    for (const part of ['.sentence', '.picture', 'dl', '.cautions']) {
      const bottom = opening.querySelector(part)?.getBoundingClientRect().bottom;
      if (bottom === undefined) found.push(`${part} is missing`);
      if (bottom > height) found.push(`${part} ends at ${Math.round(bottom)} px`);
    }
    const picture = opening.querySelector('.picture')?.getBoundingClientRect().width ?? 0;
    if (picture < share * innerWidth)
      found.push(`the picture has ${Math.round(picture)} px of ${innerWidth}`);
    return found;
  }, [height, share_of_picture]);
  for (const fault of wrong) faults.add(page_file, `on a first screen of ${width} x ${height} px: ${fault}`);
  await context.close();
}

/// How the tables stand on paper; what the paper shows of the whole is for paper.mjs.
async function look_at_sheet(browser, page_file, width) {
  const context = await browser.newContext({ viewport: { width, height: 1000 } });
  const page = await context.newPage();
  await page.emulateMedia({ media: 'print' });
  await page.goto(pathToFileURL(resolve(page_file)).href);
  for (const fault of await page.evaluate(table_faults, true))
    faults.add(`${page_file} (sheet of ${width} px)`, fault);
  await context.close();
}

if (values.pictures) mkdirSync(values.pictures, { recursive: true });
const browser = await open_browser();
for (const page_file of pages) {
  for (const width of widths)
    for (const scheme of ['light', 'dark']) await look_at(browser, page_file, width, scheme);
  await compare_without_scripts(browser, page_file);
  for (const window of windows) await look_at_first_screen(browser, page_file, window);
  for (const width of sheet_widths) await look_at_sheet(browser, page_file, width);
}
await browser.close();
faults.end(`${pages.length} pages looked at`);
