// Nobody touches the display at midnight, or when the clocks change.
import test from 'node:test';
import assert from 'node:assert/strict';
import { close, open, shot } from './browser.mjs';
import { until } from './farm.mjs';
import { browser, farm, stand } from './stage.mjs';

const zone = 'Europe/London';

stand({ withFaults: true });

const clockThere = (instant) => new Intl.DateTimeFormat('en-GB',
  { timeZone: zone, hour: '2-digit', minute: '2-digit', second: '2-digit', hourCycle: 'h23' }).format(instant);

// The next local midnight, looked for by the half hour: offsets are whole ones.
const nextMidnight = () => {
  let at = Math.ceil(Date.now() / 1_800_000) * 1_800_000;
  while (clockThere(at) !== '00:00:00') at += 1_800_000;
  return at;
};

const head = (page) => page.locator('header').first().textContent();
const rainAtYard = (page, mm) => page.locator('.sky', { hasText: `${mm} mm at yard` }).waitFor({ timeout: 90_000 });

test('midnight passes, then the hour that summer time takes, and the board follows by itself', async () => {
  const midnight = nextMidnight();
  farm.setClock(midnight - 12_000);
  // A page opened before the daemon has seen its clock jump follows with the next minute, which is midnight.
  await until('the daemon to be in the evening', async () => {
    const { time } = await (await fetch(`${farm.url}api/board`)).json();
    return Date.parse(time) >= midnight - 12_000;
  });
  const watched = await open(browser, farm.url);
  await until('the page to be in the evening', async () => /23:59/.test(await head(watched.page)));
  farm.publish('weather/yard/rain', '5');
  await rainAtYard(watched.page, 5);
  const evening = await head(watched.page);
  await rainAtYard(watched.page, 0);
  await until('the new day', async () => /00:0\d/.test(await head(watched.page)), 90_000);
  assert.notEqual(await head(watched.page), evening);
  await shot(watched.page, 'after-midnight-wall');

  // The last Sunday of March, 01:00 UTC: 00:59 is followed by 02:00.
  const year = new Date(midnight).getUTCFullYear() + 1;
  const lastOfMarch = new Date(Date.UTC(year, 2, 31));
  const change = Date.UTC(year, 2, 31 - lastOfMarch.getUTCDay(), 1);
  assert.equal(clockThere(change), '02:00:00');
  farm.setClock(change - 8_000);
  await until('the daemon to be before the change', async () => /00:59/.test(await head(watched.page)), 90_000);
  // A reading tells the board at once; left alone it looks each minute.
  await until('summer time', async () => {
    farm.publish('weather/yard/rain', '1');
    return /02:0\d/.test(await head(watched.page));
  }, 90_000);
  await close(watched);
});
