// Every page's HTML, judged by a validator that is not ours.
import test, { after, before } from 'node:test';
import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { Farm, until } from './farm.mjs';

const need = createRequire(join(process.env.GLEY_BROWSER_KIT, 'package.json'));
const { HtmlValidate } = need('html-validate');
// Without script nothing but a refresh brings a wall display up to date; it stands in noscript only.
const validator = new HtmlValidate({
  extends: ['html-validate:standard', 'html-validate:a11y'],
  rules: { 'meta-refresh': 'off' },
});

const farms = {};

before(async () => {
  farms.told = await Farm.start({ token: 'a-token-that-is-long-enough-1234', silentAfter: 0.001 });
  farms.told.forecast();
  farms.told.publish('weather/yard/rain', '12');
  farms.told.publish('weather/yard/temperature', '6.5');
  farms.new = await Farm.start({ names: ['<b>&"\'', 'B'], past: false });
  await until('an alert', async () =>
    (await (await fetch(`${farms.told.url}api/board`)).json()).alerts.length > 0);
});

after(async () => {
  for (const farm of Object.values(farms)) await farm.close();
});

const paths = ['', '?by=name', 'alerts', 'plan', 'field/f0', 'field/f0/explain', 'field/f0/seasons', 'field/none', 'none'];

for (const [name, words] of [['told', 'with weather, a forecast and alerts'], ['new', 'on its first day']]) {
  test(`the pages of a farm ${words} are valid HTML`, async () => {
    let judged = 0;
    const faults = new Set();
    for (const path of paths) {
      const answer = await fetch(farms[name].url + path);
      if (!answer.headers.get('content-type').startsWith('text/html')) continue;
      judged += 1;
      const text = await answer.text();
      const report = await validator.validateString(text);
      const lines = text.split('\n');
      for (const { ruleId, message, line, column } of report.results.flatMap((result) => result.messages)) {
        const there = lines[line - 1].slice(Math.max(0, column - 40), column + 60);
        faults.add(`/${path} ${line}:${column} ${ruleId}: ${message} | ${there}`);
      }
    }
    assert.deepEqual([...faults].slice(0, 20), []);
    assert.ok(judged >= 5, `${judged} pages`);
  });
}
