// What stands for all tests of a file: a browser and a farm.
import { after, before } from 'node:test';
import { accessible, close, fitsAcross, launch, open, shot, sizes } from './browser.mjs';
import { Farm } from './farm.mjs';

export let browser;
export let farm;

// `prepare` is done to the farm before the first test.
export function stand(options = {}, prepare = () => {}) {
  before(async () => {
    browser = await launch();
    farm = await Farm.start(options);
    await prepare();
  });
  after(async () => {
    await browser?.close();
    await farm?.close();
  });
}

// What every page owes at every size.
export async function judge(page, name, options = {}) {
  await fitsAcross(page);
  await accessible(page);
  await shot(page, name, options);
}

// A page at some sizes, in both themes; `look` gets the page and a name for its picture.
export async function inEveryLook(path, names, look) {
  for (const name of names) {
    for (const colorScheme of ['light', 'dark']) {
      const watched = await open(browser, farm.url + path, { viewport: sizes[name], colorScheme });
      await look(watched.page, `${name}-${colorScheme}`);
      await close(watched);
    }
  }
}
