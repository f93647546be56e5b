// The README's pictures of the demo farm: node pictures.mjs URL calm|storm
import { launch, open, shot, sizes } from './browser.mjs';

const [url, moment] = process.argv.slice(2);
const browser = await launch();

const look = async (path, viewport, name, ready) => {
  const { page, context } = await open(browser, url + path, { viewport });
  await page.waitForFunction(ready);
  await shot(page, name);
  await context.close();
};

const hasRows = () => document.querySelectorAll('.row').length > 0;
const isDrawn = () => {
  const canvases = [...document.querySelectorAll('figure.chart canvas')];
  document.querySelector('.charts')?.scrollIntoView();
  return canvases.length > 0 && canvases.every((canvas) =>
    new Set(new Uint32Array(canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data.buffer)).size > 4);
};

if (moment === 'calm') {
  await look('', sizes.wall, 'board', hasRows);
} else {
  await look('?by=name', sizes.phone, 'phone', hasRows);
  await look('field/long-meadow', sizes.office, 'field', isDrawn);
}
await browser.close();
