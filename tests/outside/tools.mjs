// The packages of package.json, wherever they were installed: named by HAILWRIGHT_NODE_MODULES.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = process.env.HAILWRIGHT_NODE_MODULES;
if (!folder) {
  console.error('HAILWRIGHT_NODE_MODULES names the folder node_modules; tests/run sets it');
  process.exit(2);
}
export const load = createRequire(join(folder, 'any.cjs'));
export const source_of = path => readFileSync(join(folder, path), 'utf8');

/// Chromium as Debian brings it, without what it would ask of the network by itself.
export async function open_browser() {
  const { chromium } = load('playwright-core');
  return chromium.launch({
    executablePath: process.env.HAILWRIGHT_CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
      '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
}

/// Collects what is wrong, all of it, before the test fails.
export class Faults {
  #lines = [];
  add(where, what) { this.#lines.push(`${where}: ${what}`); }
  end(done) {
    if (this.#lines.length === 0) {
      console.log(done);
      return;
    }
    for (const line of this.#lines) console.error(line);
    console.error(`${this.#lines.length} faults`);
    process.exitCode = 1;
  }
}
