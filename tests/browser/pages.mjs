// Every page at every size, in both themes, for eyes, keys and readers by voice; and the odd farms.
import test from 'node:test';
import assert from 'node:assert/strict';
import { accessible, close, fitsAcross, fitsWhole, open, shot, sizes } from './browser.mjs';
import { Farm } from './farm.mjs';
import { browser, farm, inEveryLook, judge, stand } from './stage.mjs';

const longName = 'The Sixty Letters Field Beyond The Old Railway By The Brook';
const hostile = '<img src=x onerror=alert(1)>';

stand({}, () => {
  farm.publish('weather/yard/rain', '3');
  farm.publish('weather/yard/temperature', '6.5');
  farm.publish('weather/brook/temperature', '6.5');
  farm.forecast();
});

test('twelve fields fit the wall without scrolling, in both themes', async () => {
  await inEveryLook('', ['wall'], async (page, look) => {
    assert.equal(await page.locator('.row').count(), 12);
    await fitsWhole(page);
    await judge(page, `board-${look}`);
  });
});

test('an office screen and a phone need no scrolling across', async () => {
  await inEveryLook('', ['office', 'phone'], async (page, look) => {
    if (look.startsWith('phone')) await page.waitForURL(/by=name/);
    await page.locator('.row').first().waitFor();
    await judge(page, `board-${look}`);
  });
});

test('the board weighs under 100 kB in all and paints within half a second', async () => {
  const paints = [];
  for (let i = 0; i < 3; i += 1) {
    // Each time a browser that has kept nothing.
    const context = await browser.newContext({ viewport: sizes.wall });
    const page = await context.newPage();
    await page.goto(farm.url, { waitUntil: 'load' });
    const paint = await page.waitForFunction(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime);
    paints.push(Math.round(await paint.jsonValue()));
    const bytes = await page.evaluate(() => ['navigation', 'resource']
      .flatMap((type) => performance.getEntriesByType(type)).reduce((sum, entry) => sum + entry.transferSize, 0));
    if (i === 0) console.log(`board: ${bytes} bytes in all`);
    assert.ok(bytes > 10_000 && bytes < 100_000, `${bytes} bytes`);
    await context.close();
  }
  console.log(`first paint: ${paints.join(', ')} ms`);
  assert.ok(Math.min(...paints) < 500, `${paints} ms`);
});

test('with the keyboard alone a field is reached and opened', async () => {
  const watched = await open(browser, farm.url);
  const { page } = watched;
  await page.keyboard.press('Tab');
  const first = await page.evaluate(() => document.activeElement.getAttribute('href'));
  assert.match(first, /^field\//);
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  assert.notEqual(outline, 'none');
  await page.keyboard.press('Enter');
  await page.waitForURL(/\/field\//);
  await close(watched);
});

test('without script the board is whole', async () => {
  const watched = await open(browser, farm.url, { javaScriptEnabled: false });
  assert.equal(await watched.page.locator('.row').count(), 12);
  assert.match(await watched.page.content(), /http-equiv="refresh"/);
  await shot(watched.page, 'board-no-script');
  await close(watched);
});

test('an unknown field has an honest page', async () => {
  const { page, context } = await open(browser, `${farm.url}field/nowhere`);
  await page.getByText('There is no page of this address, or no such field.').waitFor();
  await accessible(page);
  await context.close();
});

async function oddFarm(names, look, past = true) {
  const odd = await Farm.start({ names, past });
  try {
    const watched = await open(browser, odd.url);
    await look(watched.page, odd);
    await close(watched);
  } finally {
    await odd.close();
  }
}

test('a farm of one field on its first day says that nothing is known yet', async () => {
  await oddFarm(['A'], async (page) => {
    await page.getByText('No weather has arrived yet').waitFor();
    await page.getByText('No forecast has arrived').waitFor();
    await accessible(page);
    await shot(page, 'first-day-wall');
  }, false);
});

test('on the first day that has a reading no chart draws the ground as dry', async () => {
  await oddFarm(['A'], async (page, odd) => {
    odd.publish('weather/yard/rain', '3');
    await page.getByText('Rain today: 3 mm').waitFor();
    await page.goto(`${odd.url}field/f0`);
    const soil = page.locator('figure[data-chart="soil"]');
    await soil.getByText('There is one day so far').waitFor();
    assert.equal(await soil.locator('canvas').isVisible(), false);
    await page.locator('figure[data-chart="weather"] canvas').waitFor({ state: 'visible' });
    await shot(page, 'first-day-field', { fullPage: true });
  }, false);
});

test('what hangs below the line of a name is not cut off on the wall', async () => {
  const hanging = (page) => page.evaluate(() => [...document.querySelectorAll('.row h3')].map((heading) => {
    const range = document.createRange();
    range.selectNodeContents(heading);
    return range.getBoundingClientRect().bottom - heading.getBoundingClientRect().bottom;
  }));
  for (const names of [['Long Bottom'], Array.from({ length: 12 }, (_, i) => `Long Bottom ${i}`)]) {
    await oddFarm(names, async (page) => {
      for (const below of await hanging(page)) assert.ok(below <= 0.5, `${below} px of a name are cut off`);
    });
  }
});

test('names of one letter, of sixty, and with markup stand in their place', async () => {
  await oddFarm(['X', longName, hostile], async (page, odd) => {
    await page.getByRole('link', { name: hostile }).waitFor();
    await fitsWhole(page);
    await shot(page, 'names-wall');
    await page.setViewportSize(sizes.phone);
    await page.goto(`${odd.url}?by=name`);
    await fitsAcross(page);
    await shot(page, 'names-phone');
  });
});

test('sixty fields stand in order on the wall, and five hundred have their page', async () => {
  const names = (count) => Array.from({ length: count }, (_, i) => `Field ${i + 1}`);
  await oddFarm(names(60), async (page) => {
    assert.equal(await page.locator('.row').count(), 60);
    await fitsAcross(page);
    await shot(page, 'sixty-wall');
  });
  await oddFarm(names(500), async (page) => {
    assert.equal(await page.locator('.row').count(), 500);
    await fitsAcross(page);
  }, false);
});
