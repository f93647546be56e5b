// What happens on the farm shows on the board by itself, and the board says so when it may be old.
import test from 'node:test';
import assert from 'node:assert/strict';
import { close, open, shot, sizes } from './browser.mjs';
import { until } from './farm.mjs';
import { browser, farm, stand } from './stage.mjs';

stand({ silentAfter: 0.001 }, () => farm.forecast());

const says = (page, words) => page.locator('#live', { hasText: words }).waitFor();
const rainAtYard = (page, mm) => page.locator('.sky', { hasText: `${mm} mm at yard` }).waitFor();

test('a published reading changes the board within a second', async () => {
  const watched = await open(browser, farm.url);
  farm.publish('weather/yard/temperature', '6.5');
  const took = [];
  // The best of three: this machine may be busy, the daemon's way is what is judged.
  for (let mm = 5; mm <= 15; mm += 5) {
    const began = performance.now();
    farm.publish('weather/yard/rain', '5');
    await rainAtYard(watched.page, mm);
    took.push(Math.round(performance.now() - began));
  }
  console.log(`reading to changed board in the browser: ${took.join(', ')} ms`);
  assert.ok(Math.min(...took) < 1000, `${took} ms`);
  await close(watched);
});

test('an alert begins and ends on the board, with what to do', async () => {
  const watched = await open(browser, farm.url);
  farm.publish('weather/brook/temperature', '6.5');
  await until('silence at the brook to be told', async () => {
    farm.publish('weather/yard/temperature', '6.4');
    return watched.page.locator('.alert', { hasText: 'No readings from brook' }).count();
  });
  await says(watched.page, 'Check the station');
  await shot(watched.page, 'alert-wall');
  await until('the alert to end', async () => {
    farm.publish('weather/brook/temperature', '6.6');
    return await watched.page.locator('.alert', { hasText: 'No readings from brook' }).count() === 0;
  });
  await close(watched);
});

test('the daemon dies and comes back: the board says that it is old, then is new again', async () => {
  const { page, context } = await open(browser, farm.url);
  await farm.stop(farm.daemon, 'SIGKILL');
  const notice = page.locator('#notice');
  await notice.filter({ hasText: 'No connection to Gley. This is how things stood at' }).waitFor();
  await shot(page, 'lost-wall');
  await farm.startDaemon();
  await notice.waitFor({ state: 'hidden' });
  await context.close();
});

test('the broker dies and comes back: the board names it, then readings count again', async () => {
  const { page, context } = await open(browser, farm.url);
  await farm.stop(farm.broker, 'SIGKILL');
  await page.locator('.trouble', { hasText: 'Not connected to the broker' }).waitFor({ timeout: 90_000 });
  await farm.startBroker();
  await page.locator('.trouble').waitFor({ state: 'detached', timeout: 90_000 });
  await until('the daemon to be online', () => farm.isOnline());
  farm.publish('weather/yard/rain', '5');
  await rainAtYard(page, 20);
  await context.close();
});

test('ages follow the daemon: a browser whose clock stands at 2001 shows the same', async () => {
  const context = await browser.newContext({ viewport: sizes.wall });
  const page = await context.newPage();
  await page.clock.setFixedTime(new Date('2001-01-01T00:00:00Z'));
  await page.goto(farm.url);
  const ages = await page.locator('footer time').allTextContents();
  assert.ok(ages.length > 0 && ages.every((age) => /\((just now|\d+ (min|h|days) ago)\)/.test(age)), `${ages}`);
  assert.ok(await page.locator('#notice').isHidden());
  await context.close();
});

const untilKept = (page) => until('the page to be kept', () => page.evaluate(async () =>
  navigator.serviceWorker.controller !== null && await caches.match(location.href) !== undefined
    && (await Promise.all([...document.querySelectorAll('link[rel=stylesheet], script[src]')]
      .map((part) => caches.match(part.href ?? part.src)))).every((kept) => kept !== undefined)));

test('a phone that lost its line shows the last board and says when it was', async () => {
  const { page, context } = await open(browser, farm.url, { viewport: sizes.phone });
  await untilKept(page);
  await farm.stop(farm.daemon);
  await page.reload();
  await page.locator('#notice', { hasText: 'No connection to Gley. This is how things stood at' }).waitFor();
  await page.locator('.row').first().waitFor();
  await shot(page, 'offline-phone');
  await context.close();
  await farm.startDaemon();
});

test('a phone with no room left to keep pages shows what the daemon answers', async () => {
  const { page, context } = await open(browser, farm.url, { viewport: sizes.phone });
  await untilKept(page);
  const browserItself = await context.newCDPSession(page);
  const { origin } = new URL(farm.url);
  await browserItself.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
  const answer = await page.goto(`${farm.url}field/f0`);
  assert.equal(answer.status(), 200);
  assert.equal(await page.evaluate(() => caches.match(location.href)), undefined);
  await context.close();
});
