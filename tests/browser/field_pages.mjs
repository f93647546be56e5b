// A field's pages and the farm's plan: charts drawn under the policy, a table beside each, both themes, a phone,
// keys only, and no script at all.
import test from 'node:test';
import assert from 'node:assert/strict';
import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { accessible, close, open, shot, sizes } from './browser.mjs';
import { until } from './farm.mjs';
import { browser, farm, inEveryLook, judge, stand } from './stage.mjs';

const square = (west, south) => JSON.stringify({ type: 'Polygon', coordinates: [[[west, south], [west + 0.004, south],
  [west + 0.004, south + 0.003], [west, south + 0.003], [west, south]]] });

// Two of the fields side by side above a beck, taken up by a reload.
const giveBoundaries = async () => {
  const text = readFileSync(farm.config, 'utf8');
  writeFileSync(join(farm.state, 'f0.geojson'), square(-1.305, 53.9));
  writeFileSync(join(farm.state, 'f1.geojson'), square(-1.3005, 53.9));
  writeFileSync(farm.config, text.replace(/id = "(f[01])"\n/g, 'id = "$1"\nboundary = "$1.geojson"\n'));
  appendFileSync(farm.config, '\n[[watercourse]]\nid = "beck"\nname = "Mill Beck"\n'
    + 'course = [[-1.306, 53.8999], [-1.296, 53.8999]]\nbuffer_m = 20\n');
  farm.daemon.kill('SIGHUP');
  await until('the plan', async () => (await fetch(`${farm.url}plan`)).ok);
};

stand({}, async () => {
  farm.publish('weather/yard/rain', '3');
  farm.publish('weather/yard/temperature', '6.5');
  farm.forecast();
  await giveBoundaries();
  const told = { field: 'f0', by: 'Ann', time: `${new Date().toISOString().slice(0, 19)}Z` };
  farm.publish('gley/alder/tell/report', JSON.stringify({ ...told, report: 'left ruts', machine: 'drill' }));
  farm.publish('gley/alder/tell/dressing', JSON.stringify({ ...told, material: 'nitrogen', rate_kg_ha: 120 }));
  await until('what was told', async () => {
    const page = await (await fetch(`${farm.url}field/f0`)).text();
    return page.includes('left ruts') && page.includes('120 kg/ha');
  });
  await until('the outlook', async () => (await (await fetch(`${farm.url}api/field/f0/ahead`)).json()) !== null);
});

// A chart is drawn when its canvas holds more than one colour.
const drawn = (page) => page.waitForFunction(() => {
  const canvases = [...document.querySelectorAll('figure.chart canvas')];
  return canvases.length > 0 && canvases.length === document.querySelectorAll('figure.chart').length
    && canvases.every((canvas) => {
      const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
      return new Set(new Uint32Array(data.buffer)).size > 4;
    });
});

test('a field shows its charts, in both themes and on a phone, with nothing for the console', async () => {
  await inEveryLook('field/f0', ['office', 'phone'], async (page, look) => {
    await drawn(page);
    await judge(page, `field-${look}`, { fullPage: true });
  });
});

test('each chart has its numbers as a table, by keys alone', async () => {
  const watched = await open(browser, `${farm.url}field/f0`);
  await drawn(watched.page);
  const summaries = watched.page.locator('figure.chart summary');
  assert.equal(await summaries.count(), 4);
  for (let i = 0; i < 4; i += 1) {
    await summaries.nth(i).focus();
    await watched.page.keyboard.press('Enter');
    const rows = watched.page.locator('figure.chart').nth(i).locator('tbody tr');
    await rows.first().waitFor();
    assert.ok(await rows.count() > 59, 'sixty days were loaded');
  }
  await accessible(watched.page);
  await close(watched);
});

test('without script a field still says what was and what comes', async () => {
  const watched = await open(browser, `${farm.url}field/f0`, { javaScriptEnabled: false });
  await watched.page.getByRole('heading', { name: 'Coming days' }).waitFor();
  assert.ok(await watched.page.locator('table.days tbody tr').count() > 14);
  assert.equal(await watched.page.locator('canvas').count(), 0);
  await watched.page.locator('table.plain a').first().click();
  await watched.page.locator('dt:target').waitFor();
  await close(watched);
});

test('a number is explained, and so is another day', async () => {
  const watched = await open(browser, `${farm.url}field/f0`);
  await watched.page.getByRole('row', { name: /Rooted soil below field capacity/ }).getByRole('link').click();
  await watched.page.waitForURL(/explain\?date=.*#depletion_mm/);
  await accessible(watched.page);
  await watched.page.getByRole('link', { name: 'the day before' }).click();
  await watched.page.locator('#depletion_mm').waitFor();
  await shot(watched.page, 'explain');
  await close(watched);
});

test('seasons stand side by side', async () => {
  const watched = await open(browser, `${farm.url}field/f0/seasons`);
  await drawn(watched.page);
  await accessible(watched.page);
  await shot(watched.page, 'seasons', { fullPage: true });
  await close(watched);
});

test('the plan shows the fields, and leads to them', async () => {
  await inEveryLook('plan', ['office', 'phone'], async (page, look) => {
    assert.equal(await page.locator('svg.plan a').count(), 2);
    await judge(page, `plan-${look}`, { fullPage: true });
  });
  const watched = await open(browser, `${farm.url}plan`);
  await watched.page.getByRole('link', { name: 'Slurry tanker, full' }).click();
  await watched.page.waitForURL(/machine=tanker/);
  await watched.page.locator('svg.plan a').first().focus();
  await watched.page.keyboard.press('Enter');
  await watched.page.waitForURL(/field\/f0$/);
  await close(watched);
});

test('at the field gate the nearest field stands first, and the order outlives a reading', async () => {
  const size = { viewport: sizes.phone, permissions: ['geolocation'],
    geolocation: { latitude: 53.9015, longitude: -1.2985, accuracy: 12 } };
  const watched = await open(browser, `${farm.url}?by=name`, size);
  const { page, context } = watched;
  const names = () => page.locator('.row h3').allTextContents();
  const byName = await names();
  await page.getByRole('button', { name: 'Nearest first' }).click();
  await page.locator('#near', { hasText: 'good to 12 m' }).waitFor();
  // The person stands in f1; f0 ends 0.0025 degrees of longitude to the west: 160 m by hand.
  const nearFirst = await names();
  assert.equal(await page.locator('.row .away').first().textContent(), 'here');
  assert.equal(await page.locator('.row .away').nth(1).textContent(), '160 m away');
  assert.notDeepEqual(nearFirst, byName);
  assert.deepEqual([...nearFirst].sort(), [...byName].sort());
  assert.deepEqual(nearFirst.slice(2), byName.filter((name) => !nearFirst.slice(0, 2).includes(name)));
  assert.equal(await page.locator('.group > h2').textContent(), 'Nearest first');
  await accessible(page);
  await shot(page, 'nearest-phone');
  const before = await page.locator('#live').getAttribute('data-revision');
  farm.publish('weather/yard/rain', '1.5');
  await until('another revision', async () => await page.locator('#live').getAttribute('data-revision') !== before);
  assert.deepEqual(await names(), nearFirst);
  await context.clearPermissions();
  await close(watched);
});

test('without a position the fields stay by name, and the page says so until it is left', async () => {
  const watched = await open(browser, `${farm.url}?by=name`, { viewport: sizes.phone });
  const { page } = watched;
  await page.getByRole('button', { name: 'Nearest first' }).click();
  const said = page.locator('#near', { hasText: 'No position was to be had' });
  await said.waitFor();
  const before = await page.locator('#live').getAttribute('data-revision');
  farm.publish('weather/yard/rain', '2.5');
  await until('another revision', async () => await page.locator('#live').getAttribute('data-revision') !== before);
  assert.equal(await said.count(), 1);
  await close(watched);
});
