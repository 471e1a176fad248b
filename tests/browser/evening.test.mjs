// A first evening by somebody who opens no terminal: a catalogue made, photos dropped, parted and joined by mouse and
// by keyboard, the sheet written, faults mended in their cells, the night taken in; with a reload and a killed program
// on the way.
import assert from 'node:assert/strict';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { launch, open, Served, shown, until, violations, visit } from './harness.mjs';

const photos = join(import.meta.dirname, '..', 'data', 'night', 'photos');
const first = ['A0000-0.jpg', 'A0001-0.jpg', 'A0002-0.jpg', 'tray.jpg'].map((name) => join(photos, name));
const shots = process.env.EVET_SCREENSHOTS;
let browser;
before(async () => {
  browser = await launch();
  if (shots) mkdirSync(shots, { recursive: true });
});
after(() => browser.close());

// Until the program itself says so of the evening.
const evening = (page) => page.evaluate(async () => (await fetch('/api/evening')).json());
const holds = (page, what) => until(page, what);
const judged = (page, count) => until(page, (n) => document.querySelectorAll('.shot.good, .shot.bad').length >= n, count);
const drawnCaptures = (page, count) => until(page, (n) => document.querySelectorAll('tr[data-capture]').length === n, count);

async function check(page, name, found) {
  for (const one of await violations(page)) found.push(`${name}: ${one}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  if (wide > 1) found.push(`${name}: ${wide} px wider than the screen`);
  if (shots) await page.screenshot({ path: `${shots}/${name}.png`, fullPage: true });
}

async function makeCatalogue(page, title) {
  await page.locator('#new-title').fill(title);
  await page.keyboard.press('Enter');
  await page.waitForURL(/#\/evening$/);
  await page.waitForSelector('#pick-photos', { state: 'attached' });
}

// As a hand does it: pressed, drawn away a little, and over to where it is let go.
async function drag(page, from, to) {
  const [a, b] = [await from.boundingBox(), await to.boundingBox()];
  await page.mouse.move(a.x + 40, a.y + 40);
  await page.mouse.down();
  await page.mouse.move(a.x + 55, a.y + 55, { steps: 4 });
  await page.mouse.move(b.x + 50, b.y + 15, { steps: 8 });
  await page.mouse.up();
}

async function write(page, column, text, capture = 'evening') {
  await page.locator(`#cell-${capture}-${column}`).fill(text);
  await page.keyboard.press('Tab');
  await until(page, async ([key, name, wanted]) => {
    const { common, captures } = await (await fetch('/api/evening')).json();
    return (key === 'evening' ? common[name].text : captures.find((one) => one.key === key).cells[name]) === wanted;
  }, [capture, column, text]);
}

test('a first evening from nothing to the night page', async () => {
  const served = await Served.draw('none');
  const page = await open(browser, served, 'KM');
  const found = [];
  assert.match(await page.locator('main').innerText(), /None is known here yet/);
  await check(page, 'start-1280-dark', found);
  await makeCatalogue(page, 'Alder Fen');
  await check(page, 'evening-empty-1280-dark', found);

  await page.locator('#pick-photos').setInputFiles(first);
  await judged(page, 4);
  assert.match(await page.locator('.came').innerText(), /4 photos came over/);
  assert.match(await page.locator('#judged').innerText(), /4 photos/);
  assert.equal(await page.locator('.shot.bad').count(), 1, 'the empty tray');

  // Rendered photos of one sitting lie close in time: parted by hand, one by key and one by mouse.
  const keyed = page.locator('.shot[aria-label^="A0001-0.jpg"]');
  await keyed.focus();
  await page.keyboard.press('Space');
  await until(page, () => document.querySelector('.shot[aria-pressed=true]'));
  await page.keyboard.press('x');
  await until(page, () => [...document.querySelectorAll('tr[data-capture]')].some((row) => row.querySelectorAll('.shot').length === 1 && row.querySelector('[aria-label^="A0001-0"]')));
  await page.setViewportSize({ width: 1280, height: 1500 }); // both ends of the way in sight
  await drag(page, page.locator('.shot[aria-label^="A0002-0.jpg"]'), page.locator('.apart'));
  await drawnCaptures(page, 4);
  // And together again with another row, and back.
  const rowOf = (name) => page.locator('tr[data-capture]', { has: page.locator(`.shot[aria-label^="${name}"]`) });
  await drag(page, page.locator('.shot[aria-label^="A0002-0.jpg"]'), rowOf('A0001-0'));
  await drawnCaptures(page, 3);
  await page.locator('.shot[aria-label^="A0002-0.jpg"]').click();
  await page.locator('#chosen-apart').click();
  await drawnCaptures(page, 4);

  await page.setViewportSize({ width: 1280, height: 720 });

  // What is missing is told at the cell, once.
  assert.equal(await page.locator('#cell-evening-site').getAttribute('aria-invalid'), 'true');
  assert.equal(await page.locator('.whole .fault').count(), 2, 'site and licence');
  assert.equal(await page.locator('#take').isDisabled(), true);
  await check(page, 'evening-faults-1280-dark', found);
  await write(page, 'site', 'Alder Fen');
  await write(page, 'licence', 'L-7');
  await write(page, 'night', '2024-05-14');
  const [capture] = (await evening(page)).captures;
  await write(page, 'svl_mm', '7 cm', capture.key);
  await holds(page, () => /not a number/.test(document.querySelector('tr[data-capture] .fault')?.textContent));
  await write(page, 'svl_mm', '71', capture.key);
  await page.locator(`#cell-${capture.key}-sex`).selectOption('female');
  await holds(page, () => !document.querySelector('.fault:not(p)') && document.querySelector('#take')?.disabled === false);

  // Reloaded in the middle: everything is there, and what is dropped again is not sent again.
  await page.reload();
  await drawnCaptures(page, 4);
  assert.equal(await page.locator(`#cell-${capture.key}-svl_mm`).inputValue(), '71');
  await page.locator('#pick-photos').setInputFiles(first);
  await until(page, () => /4 photos were here already/.test(document.querySelector('.came').textContent));
  await page.locator('#pick-photos').setInputFiles([join(photos, '..', 'README.md')]);
  await until(page, () => /only JPEG, PNG, TIFF and HEIC/.test(document.querySelector('.came').textContent));
  await check(page, 'evening-1280-dark', found);
  await page.evaluate(() => localStorage.setItem('evet.theme', 'light'));
  await page.reload();
  await drawnCaptures(page, 4);
  await judged(page, 4);
  await check(page, 'evening-1280-light', found);

  await page.locator('#take').click();
  await page.waitForURL(/#\/night\/2024-05-14$/);
  await shown(page, 'night/2024-05-14');
  assert.match(await page.locator('main').innerText(), /Night of 14 May 2024/);
  assert.match(await page.locator('.glance').innerText(), /4 captures on the sheet, 4 photos, 1 of them not usable/);
  await visit(page, 'evening');
  assert.match(await page.locator('.outcome').innerText(), /4 captures with 4 photos of 2024-05-14/);
  await visit(page, 'start');
  assert.match(await page.locator('.catalogues').innerText(), /Alder Fen[\s\S]*last night 14 May 2024/);
  await check(page, 'start-1280-light', found);
  assert.deepEqual(found, []);
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('a killed program: plain words, and the evening goes on where it stood', async () => {
  const served = await Served.draw('none');
  const page = await open(browser, served, 'KM');
  await makeCatalogue(page, 'Alder Fen');
  await page.locator('#pick-photos').setInputFiles(first.slice(0, 1));
  await judged(page, 1);
  await served.kill();
  await page.locator('#pick-photos').setInputFiles(first.slice(1, 2));
  await until(page, () => /does not answer/.test(document.querySelector('.came').textContent));
  await page.evaluate(() => { location.hash = '#/population'; });
  await until(page, () => document.querySelector('main [role=alert]'));
  const words = await page.locator('main').innerText();
  assert.doesNotMatch(words, /dynamically|module|fetch/i);
  assert.match(words, /does not answer/);
  await served.start();
  await page.goto(served.url);
  await shown(page);
  await page.locator('.catalogues button').click();
  await drawnCaptures(page, 1);
  await page.context().close();
  await served.end();
});
