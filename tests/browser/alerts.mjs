// An alert begins, is seen by someone through its button, ends, and stands among the past ones; and nobody else's
// page can say that it was seen.
import test, { after } from 'node:test';
import assert from 'node:assert/strict';
import { createServer, request } from 'node:http';
import { accessible, close, fitsAcross, fitsWhole, open, shot, sizes } from './browser.mjs';
import { until } from './farm.mjs';
import { browser, farm, inEveryLook, judge, stand } from './stage.mjs';

const token = 'open-sesame';
const hostile = '<b onclick=alert(1)>Ann</b>';
const headline = 'No readings from brook';
let yard;

stand({ silentAfter: 0.002, token }, () => {
  // Only the brook falls silent.
  const tell = () => farm.publish('weather/yard/temperature', '6.4');
  tell();
  yard = setInterval(tell, 2000);
  farm.forecast();
});

after(() => clearInterval(yard));

const alerts = async () => (await (await fetch(`${farm.url}api/alerts`)).json()).alerts;
const standing = async () => (await alerts()).find((alert) => alert.headline.startsWith(headline) && !alert.ended);

const silence = () => until('silence at the brook to be told', async () => await standing());
const speak = () => until('the silence to end', async () => {
  farm.publish('weather/brook/temperature', '6.6');
  return !(await standing());
});

const item = (page) => page.locator('.alert', { hasText: headline });
const dialog = (page) => page.locator('#seen-form');
const openDialog = async (page) => {
  await item(page).getByRole('button', { name: 'Seen' }).click();
  await dialog(page).waitFor();
};
const submit = (page) => dialog(page).getByRole('button', { name: 'Seen' }).click();

// What Chromium itself writes of an answer that the page then explains.
const forgetRefusal = ({ faults }, status) => {
  const at = faults.findIndex((fault) => fault.includes(`status of ${status}`));
  assert.ok(at >= 0, `${faults}`);
  faults.splice(at, 1);
};

const write = (path, headers, body = '{"by":"Mallory"}') => new Promise((done, failed) => {
  const asked = request(`${farm.url}${path}`, { method: 'POST', headers }, (answer) => {
    answer.resume();
    answer.on('end', () => done(answer.statusCode));
  });
  asked.on('error', failed);
  asked.end(body);
});

test('a past alert and one that stands have their page, at every size and in both themes', async () => {
  farm.publish('weather/brook/temperature', '6.5');
  await silence();
  await speak();
  await silence();
  for (const [name, path] of [['alerts', 'alerts'], ['alert', '?by=work']]) {
    await inEveryLook(path, Object.keys(sizes), async (page, look) => {
      await item(page).getByRole('button', { name: 'Seen' }).waitFor();
      if (name === 'alert' && look.startsWith('wall')) await fitsWhole(page);
      await judge(page, `${name}-${look}`);
      await openDialog(page);
      await judge(page, `${name}-seen-${look}`);
    });
  }
});

test('no other origin, and nobody without the token, can say that an alert was seen', async () => {
  const { id } = await standing();
  const path = `api/alert/${id}/seen`;
  const json = { 'Content-Type': 'application/json' };
  const bearer = { ...json, Authorization: `Bearer ${token}` };
  assert.equal(await write(path, json), 401);
  assert.equal(await write(path, { ...json, Authorization: 'Bearer guessed' }), 401);
  assert.equal(await write(path, { ...bearer, Origin: 'http://elsewhere.example' }), 403);
  assert.equal(await write(path, { ...bearer, Origin: 'null' }), 403);
  assert.equal(await write(path, { ...bearer, 'Sec-Fetch-Site': 'cross-site' }), 403);
  assert.equal(await write(path, { ...bearer, 'Content-Type': 'text/plain' }), 415);
  assert.equal((await standing()).seen_by, null);
});

test('a page of another origin, open in the same browser, can neither post a form nor fetch', async () => {
  const { id } = await standing();
  const address = `${farm.url}api/alert/${id}/seen`;
  const stranger = createServer((_, answer) => {
    answer.setHeader('Content-Type', 'text/html');
    answer.end(`<!DOCTYPE html><title>Stranger</title><form method="post" enctype="text/plain" action="${address}">`
      + '<input name=\'{"by":"Mallory","x":"\' value=\'"}\'><button>Go</button></form>');
  });
  await new Promise((ready) => stranger.listen(0, '127.0.0.1', ready));
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${stranger.address().port}/`);
  const fetched = await page.evaluate(([url, secret]) => fetch(url, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Authorization: `Bearer ${secret}` },
    body: '{"by":"Mallory"}',
  }).then(() => 'taken', () => 'refused'), [address, token]);
  assert.equal(fetched, 'refused');
  const answered = page.waitForResponse(address);
  await page.getByRole('button').click();
  assert.equal((await answered).status(), 403);
  await context.close();
  stranger.close();
  assert.equal((await standing()).seen_by, null);
});

test('an alert is seen by someone through the button, then ends and stands among the past ones', async () => {
  const watched = await open(browser, farm.url);
  const other = await open(browser, `${farm.url}alerts`);
  const { page } = watched;
  await openDialog(page);
  await dialog(page).getByLabel('Your name').fill(hostile);
  await dialog(page).getByLabel('Token of this farm').fill('guessed');
  await submit(page);
  await dialog(page).getByText('That is not the token of this farm. Nothing was told.').waitFor();
  forgetRefusal(watched, 401);
  assert.equal((await standing()).seen_by, null);
  await dialog(page).getByLabel('Token of this farm').fill(token);
  await submit(page);
  await dialog(page).waitFor({ state: 'hidden' });
  for (const shown of [page, other.page]) {
    await item(shown).getByText(`seen by ${hostile}`).waitFor();
    assert.equal(await item(shown).getByRole('button', { name: 'Seen' }).count(), 0);
  }
  assert.equal((await standing()).seen_by, hostile);
  await shot(page, 'alert-was-seen-wall');
  await speak();
  await until('the alert to leave the board', async () => await item(page).count() === 0);
  await other.page.getByRole('row', { name: hostile }).filter({ hasText: headline }).first().waitFor();
  await accessible(other.page);
  for (const [size, viewport] of Object.entries(sizes)) {
    await other.page.setViewportSize(viewport);
    await fitsAcross(other.page);
    await shot(other.page, `alerts-ended-${size}`);
  }
  await close(other);
  await close(watched);
});

test('with the keyboard alone, name and token typed once are kept, and can be forgotten', async () => {
  await silence();
  const watched = await open(browser, `${farm.url}alerts`, { viewport: sizes.phone });
  const { page } = watched;
  await item(page).getByRole('button', { name: 'Seen' }).focus();
  await page.keyboard.press('Enter');
  await dialog(page).waitFor();
  await page.keyboard.type('Bob');
  await page.keyboard.press('Tab');
  await page.keyboard.type(token);
  await page.keyboard.press('Enter');
  await dialog(page).waitFor({ state: 'hidden' });
  await item(page).getByText('seen by Bob').waitFor();
  await speak();
  await silence();
  await openDialog(page);
  assert.equal(await dialog(page).getByLabel('Your name').inputValue(), 'Bob');
  assert.ok(await dialog(page).getByLabel('Token of this farm').isHidden());
  await dialog(page).getByRole('button', { name: 'Forget name and token' }).click();
  assert.equal(await dialog(page).getByLabel('Your name').inputValue(), '');
  assert.ok(await dialog(page).getByLabel('Token of this farm').isVisible());
  await page.keyboard.press('Escape');
  await dialog(page).waitFor({ state: 'hidden' });
  assert.equal(await page.evaluate(() => localStorage.length), 0);
  await close(watched);
});

test('without script the page is whole, and says why there is no button', async () => {
  const watched = await open(browser, `${farm.url}alerts`, { javaScriptEnabled: false });
  await item(watched.page).first().waitFor();
  // Playwright's way to switch scripts off leaves <noscript> unread, so its text is looked for as sent.
  assert.match(await watched.page.content(), /<noscript><p class="aside">To say that you have seen/);
  assert.equal(await watched.page.getByRole('button', { name: 'Seen' }).count(), 0);
  await close(watched);
});
