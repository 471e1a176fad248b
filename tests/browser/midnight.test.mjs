// What a tired surveyor does at midnight: the same card twice, half a sheet, a card pulled out, a lid closed, a night
// under a wrong date. Nothing is lost, nothing is doubled, and plain words say what to do.
import assert from 'node:assert/strict';
import { copyFileSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { launch, onTable, open, saved, Served, shown, until, violations, visit } from './harness.mjs';

const photos = join(import.meta.dirname, '..', 'data', 'night', 'photos');
const NAMES = ['A0002-0.jpg', 'A0001-0.jpg', 'A0000-0.jpg']; // the last is sent in more than one piece
let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

const evening = (page) => page.evaluate(async () => (await fetch('/api/evening')).json());
async function begun(served) {
  const page = await open(browser, served, 'KM');
  await page.locator('#new-title').fill('Alder Fen');
  await page.keyboard.press('Enter');
  await page.waitForSelector('#pick-photos', { state: 'attached' });
  return page;
}
// As if they lay on a card of the test's own.
function card(served) {
  const folder = join(served.folder, 'card');
  mkdirSync(folder, { recursive: true });
  return NAMES.map((name) => { copyFileSync(join(photos, name), join(folder, name)); return join(folder, name); });
}
const came = (page, words) => until(page, (wanted) => new RegExp(wanted).test(document.querySelector('.came')?.innerText), words);
async function write(page, column, text) {
  await page.locator(`#cell-evening-${column}`).fill(text);
  await page.keyboard.press('Tab');
  await until(page, async ([name, wanted]) => (await (await fetch('/api/evening')).json()).common[name].text === wanted, [column, text]);
}
async function takeIn(page) {
  await until(page, () => !document.querySelector('#take').disabled);
  await page.locator('#take').click();
  await until(page, async () => { const { taking } = await (await fetch('/api/evening')).json(); return taking.outcome && !taking.running; });
}

test('half a sheet waits, and the same card twice is one card', async () => {
  const served = await Served.draw('none');
  const page = await begun(served);
  const files = card(served);
  await page.locator('#pick-photos').setInputFiles(files);
  await came(page, '3 photos came over');
  await page.locator('#pick-photos').setInputFiles(files);
  await came(page, '3 photos were here already');
  assert.equal((await evening(page)).photos.length, 3);

  await write(page, 'site', 'Alder Fen'); // and no licence: the kettle boils
  await until(page, () => document.querySelector('#take').disabled && /must be mended first/.test(document.querySelector('main').innerText));
  await page.reload();
  await shown(page);
  assert.equal(await page.locator('#cell-evening-site').inputValue(), 'Alder Fen');
  assert.ok(await page.locator('#cell-evening-licence-fault').count(), 'the cell says what is missing');
  await write(page, 'licence', 'L-7');
  await takeIn(page);
  await page.waitForURL(/#\/night\//);

  await visit(page, 'evening');
  await page.locator('#pick-photos').setInputFiles(files);
  await until(page, () => /3 photos of these are in the catalogue already and not added again/.test(document.querySelector('main').innerText));
  const captures = async () => (await served.ledger(page, 'capture')).length;
  const had = await captures();
  await takeIn(page);
  assert.equal(await captures(), had, 'nothing is doubled');
  await page.waitForURL(/#\/night\//); // where they lie already
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('a photo that is gone from the card is named, and the others come', async () => {
  const served = await Served.draw('none');
  const page = await begun(served);
  const files = card(served);
  await served.pause(); // the first pieces wait, and the card is pulled out meanwhile
  await page.locator('#pick-photos').setInputFiles(files);
  rmSync(files[2]);
  served.resume();
  await until(page, () => /can no longer be read: was the card taken out/.test(document.querySelector('.came').innerText));
  await came(page, '2 photos came over');
  assert.deepEqual(await violations(page), []);
  await page.locator('button', { hasText: 'Seen' }).click();
  await page.locator('#pick-photos').setInputFiles(card(served));
  await came(page, '2 photos were here already');
  await until(page, async () => (await (await fetch('/api/evening')).json()).photos.length === 3);
  await page.context().close();
  await served.end();
});

test('a lid closed in the middle: what was sent and said goes on when it opens', async () => {
  const served = await Served.draw('night');
  const page = await open(browser, served, 'KM');
  await visit(page, 'evening');
  await served.pause();
  await page.locator('#pick-photos').setInputFiles(card(served));
  await came(page, 'on its way');
  await page.waitForTimeout(2500);
  served.resume();
  await came(page, '3 photos came over');
  const [first] = served.truth.fresh;
  await visit(page, `capture/${first}`);
  await onTable(page, first);
  await served.pause();
  await page.keyboard.press('n');
  await page.waitForTimeout(2500);
  served.resume();
  await saved(page);
  assert.equal((await served.ledger(page, 'verdict')).filter((one) => one.actor === 'KM').length, 1, 'once');
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('a night under a wrong date is moved whole, with its verdicts', async () => {
  const served = await Served.draw('night');
  const page = await open(browser, served, 'KM');
  const [first] = served.truth.fresh;
  await visit(page, `capture/${first}`);
  await onTable(page, first);
  await page.keyboard.press('n');
  await saved(page);
  await visit(page, `night/${served.truth.last_night}`);
  const before = (await served.ledger(page, 'capture')).length;
  await page.locator('button', { hasText: 'Wrong date or place' }).click();
  await page.waitForSelector('dialog.move');
  assert.deepEqual(await violations(page), []);
  await page.locator('#move-night').fill('2026-13-41');
  await page.locator('#move-reason').fill('the camera said May, and I wrote it for April');
  await page.keyboard.press('Enter');
  await until(page, () => /2026-13-41/.test(document.querySelector('dialog.move [role=alert]').innerText));
  await page.locator('#move-night').fill('2026-05-14');
  await page.keyboard.press('Enter');
  await page.waitForURL(/#\/night\/2026-05-14/);
  await shown(page, 'night/2026-05-14');
  const there = await page.evaluate(async () => (await fetch('/api/night/2026-05-14')).json());
  assert.ok(there.glance.captures >= 4, JSON.stringify(there.glance));
  assert.equal((await served.ledger(page, 'capture')).length, before, 'moved, not taken in again');
  assert.match(await page.locator('main').innerText(), /14 May 2026/);
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});
