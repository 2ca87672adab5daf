// Opens pages as a reader would and looks for what is wrong with them.
//
//   node pages.mjs [--pictures DIR] PAGE.html...
//
// At the widths of a telephone, a tablet and a desktop, light and dark: the page fits its width,
// fetches nothing, has no accessibility violation that axe-core finds for WCAG 2.1 A and AA
// (w3.org/TR/WCAG21), its text does not depend on scripts, and no words of a picture lie on others or outside it. With
// --pictures a picture of every page is kept there, to be looked at.
import { mkdirSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { Faults, open_browser, source_of } from './tools.mjs';

const { values, positionals: pages } = parseArgs({
  allowPositionals: true, options: { pictures: { type: 'string' } },
});
if (pages.length === 0) {
  console.error('usage: node pages.mjs [--pictures DIR] PAGE.html...');
  process.exit(2);
}
const widths = [360, 768, 1280];
const height = 800;
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
  await page.evaluate(axe);
  const result = await page.evaluate(() => globalThis.axe.run(document, {
    runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice'] },
  }));
  if (result.passes.length === 0) faults.add(where, 'axe-core checked nothing');
  for (const v of result.violations)
    faults.add(where, `${v.id}: ${v.help} (${v.nodes.map(n => n.target.join(' ')).slice(0, 3).join(', ')})`);
  if (values.pictures) {
    const name = `${basename(dirname(resolve(page_file)))}-${basename(page_file, '.html')}-${width}-${scheme}.png`;
    await page.screenshot({ path: join(values.pictures, name), fullPage: false });
  }
  await context.close();
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

/// What a write-up must show before anybody scrolls, on a desktop's screen.
async function look_at_first_screen(browser, page_file) {
  const context = await browser.newContext({ viewport: { width: 1280, height } });
  const page = await context.newPage();
  await page.goto(pathToFileURL(resolve(page_file)).href);
  const below = await page.evaluate(limit => {
    const opening = document.querySelector('.opening');
    if (!opening) return null;
    return ['.sentence', 'svg', 'dl', '.brief-cautions']
      .filter(part => opening.querySelector(part))
      .map(part => ({ part, top: opening.querySelector(part).getBoundingClientRect().top,
        bottom: opening.querySelector(part).getBoundingClientRect().bottom }))
      .filter(({ bottom }) => bottom > limit)
      .map(({ part, bottom }) => `${part} ends at ${Math.round(bottom)} px`);
  }, height);
  for (const part of below ?? []) faults.add(page_file, `on the first screen of ${height} px: ${part}`);
  await context.close();
}

if (values.pictures) mkdirSync(values.pictures, { recursive: true });
const browser = await open_browser();
for (const page_file of pages) {
  for (const width of widths)
    for (const scheme of ['light', 'dark']) await look_at(browser, page_file, width, scheme);
  await compare_without_scripts(browser, page_file);
  await look_at_first_screen(browser, page_file);
}
await browser.close();
faults.end(`${pages.length} pages looked at`);
