// Debian's Chromium, watched: what a page writes to its console or asks of another host is a fault.
import { createRequire } from 'node:module';
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import assert from 'node:assert/strict';

const kit = process.env.GLEY_BROWSER_KIT;
const need = createRequire(join(kit, 'package.json'));
const { chromium } = need('playwright-core');
const axe = readFileSync(need.resolve('axe-core/axe.min.js'), 'utf8');

export const shots = process.env.GLEY_SHOTS ?? join(kit, 'shots');
mkdirSync(shots, { recursive: true });

export const sizes = {
  wall: { width: 1920, height: 1080 },
  office: { width: 1366, height: 768 },
  phone: { width: 390, height: 844 },
};

export const launch = () => chromium.launch({
  executablePath: process.env.GLEY_CHROMIUM ?? '/usr/bin/chromium',
  // As root Chromium's own sandbox cannot stand; no part of it may ask anything of its makers.
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync'],
});

// A page in a context of its own, whose faults are gathered.
export async function open(browser, url, options = {}) {
  const context = await browser.newContext({ viewport: sizes.wall, colorScheme: 'light', ...options });
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  const faults = [];
  page.on('console', (message) => faults.push(`console ${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => faults.push(`error: ${error.message}`));
  page.on('request', (request) => {
    if (!request.url().startsWith(new URL(url).origin)) faults.push(`asked outside: ${request.url()}`);
  });
  await page.goto(url, { waitUntil: 'load' });
  return { page, context, faults };
}

export async function close({ context, faults }) {
  await context.close();
  assert.deepEqual(faults, []);
}

export const shot = (page, name, options = {}) =>
  page.screenshot({ path: join(shots, `${name}.png`), ...options });

const overflow = (page) => page.evaluate(() => {
  const { scrollWidth, clientWidth, scrollHeight, clientHeight } = document.documentElement;
  return { right: scrollWidth - clientWidth, below: scrollHeight - clientHeight };
});

export async function fitsAcross(page) {
  const { right } = await overflow(page);
  assert.ok(right <= 0, `${right} px stand out to the right`);
}

export async function fitsWhole(page) {
  await fitsAcross(page);
  const { below } = await overflow(page);
  assert.ok(below <= 0, `${below} px stand below the screen's edge`);
}

// WCAG 2.2 AA, as far as a program can judge it.
export async function accessible(page) {
  // Not as a script of the page: its policy would, rightly, refuse one.
  await page.evaluate(axe);
  const found = await page.evaluate(() => window.axe.run(document, {
    runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
  }));
  const told = found.violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes[0].html.slice(0, 200)}`);
  assert.deepEqual(told, []);
}
