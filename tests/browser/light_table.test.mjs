// The light table: what is said stays in its place, the advice is to be seen, any two captures can be held together, a
// strip is turned by one key; and the ledger shows what stood on the screen.
import assert from 'node:assert/strict';
import { mkdirSync } from 'node:fs';
import { after, before, test } from 'node:test';
import { laid, launch, onTable, open, ranked, redrawn, saved, Served, shown, until, violations, visit } from './harness.mjs';

const shots = process.env.EVET_SCREENSHOTS;
let browser;
before(async () => { browser = await launch(); if (shots) mkdirSync(shots, { recursive: true }); });
after(() => browser.close());

const boxOf = (page, selector) => page.evaluate((wanted) => { const { top, bottom, left, right } = document.querySelector(wanted).getBoundingClientRect(); return { top, bottom, left, right }; }, selector);

for (const [width, height, theme] of [[1280, 720, 'dark'], [1280, 720, 'light'], [1920, 1080, 'light'], [1920, 1080, 'dark'], [390, 844, 'dark'], [390, 844, 'light']]) {
  test(`the verdict stays in its place and is whole at ${width} x ${height}, ${theme}`, async () => {
    const served = await Served.draw('twice');
    const page = await open(browser, served, 'TR', { viewport: { width, height } });
    await page.evaluate((name) => localStorage.setItem('evet.theme', name), theme);
    await page.reload();
    await ranked(page);
    if (shots) await page.screenshot({ path: `${shots}/night-${width}-${theme}.png` });
    assert.deepEqual(await violations(page), []);
    const places = [];
    for (const id of [...Object.keys(served.truth.again).slice(0, 2), ...served.truth.fresh.slice(0, 2)]) {
      await visit(page, `capture/${id}`);
      await onTable(page, id);
      await laid(page);
      const verdicts = await boxOf(page, '.verdicts');
      assert.ok(verdicts.top >= 0 && verdicts.bottom <= height && verdicts.right <= width, JSON.stringify(verdicts));
      for (const one of await page.locator('.verdicts button').all()) {
        const box = await one.boundingBox();
        assert.ok(box.y >= 0 && box.y + box.height <= height, 'whole');
      }
      places.push(JSON.stringify([verdicts.top, verdicts.left]));
      await page.keyboard.press('ArrowDown');
      await laid(page);
      assert.equal(JSON.stringify(await boxOf(page, '.verdicts').then(({ top, left }) => [top, left])), places.at(-1), 'another candidate does not move it');
    }
    assert.equal(new Set(places).size, 1, places.join(' '));
    // The strips take what room there is: one side of the stage is filled.
    const filled = await page.evaluate(() => {
      const canvas = document.querySelector('.stage canvas'), { width: w, height: h } = canvas;
      const pixels = canvas.getContext('2d').getImageData(0, 0, w, h).data;
      let left = w, right = 0, top = h, bottom = 0;
      for (let y = 0; y < h; y += 2) for (let x = 0; x < w; x += 2) if (pixels[4 * (y * w + x) + 3] > 200) { left = Math.min(left, x); right = Math.max(right, x); top = Math.min(top, y); bottom = Math.max(bottom, y); }
      return Math.max((right - left) / w, (bottom - top) / h);
    });
    assert.ok(filled > 0.95, `${filled}`);
    assert.deepEqual(await violations(page), []);
    if (shots) await page.screenshot({ path: `${shots}/capture-${width}-${theme}.png` });
    assert.deepEqual(page.problems, []);
    await page.context().close();
    await served.end();
  });
}

test('what the program is sure of lies beside its match, and can be accepted; then the night says what comes next', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  const sure = await page.locator('.row.sure').count();
  assert.ok(sure > 0);
  const same = page.locator('.row.sure', { hasText: /is [0-9A-Z-]{8}/ }).first();
  assert.equal(await same.locator('img').count(), 2, 'the capture and its match');
  assert.match(await same.innerText(), /%/);
  await page.keyboard.press('a');
  await until(page, (were) => document.querySelectorAll('.row.sure').length < were, sure);
  await ranked(page);
  // The rest by hand, whatever it is.
  for (let i = 0; i < 12 && await page.locator('.rows a.row').first().count() && !(await page.locator('.afterwards').count()); ++i) {
    await page.keyboard.press('Enter');
    await until(page, () => location.hash.startsWith('#/capture/'));
    await shown(page);
    const id = await page.evaluate(() => document.getElementById('page').dataset.shown.split('/')[2]);
    await onTable(page, id);
    await page.keyboard.press(served.truth.again[id] ? 's' : 'n');
    await until(page, (was) => !location.hash.includes(was), id);
    await saved(page);
    await visit(page, 'night');
    await ranked(page);
  }
  await page.locator('.afterwards').waitFor();
  assert.match(await page.locator('.afterwards').innerText(), /Report of the night[\s\S]*Print it/);
  assert.deepEqual(await violations(page), []);
  await page.context().close();
  await served.end();
});

test('the advised answer is highlighted with why, and candidates have pictures', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  const sure = await page.evaluate(async () => (await (await fetch('/api/night')).json()).queue.find((one) => one.advice === 'same').capture);
  await visit(page, `capture/${sure}`);
  await onTable(page, sure);
  assert.match(await page.locator('.verdicts .is-advised').innerText(), /Same\s+advised/);
  assert.match(await page.locator('.advice').innerText(), /Advised: same as/);
  await page.keyboard.press('ArrowDown');
  await until(page, () => !document.querySelector('.verdicts .is-advised'));
  assert.ok(await page.locator('.candidates img').count() >= 2);
  // As many spots are tied as the ranking counted.
  await page.keyboard.press('ArrowUp');
  await laid(page);
  const [counted, told] = await page.evaluate(async (id) => [(await (await fetch(`/api/capture/${id}`)).json()).candidates[0].matched_spots, document.querySelector('.table .told').textContent], sure);
  assert.equal(Number(/^(\d+)/.exec(told)[1]), counted);
  await page.context().close();
  await served.end();
});

test('any two captures are held together, found by name, night or individual', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  const id = served.truth.fresh[0];
  await visit(page, `capture/${id}`);
  await onTable(page, id);
  await page.keyboard.press('h');
  await page.locator('dialog.find').waitFor();
  await page.keyboard.type('2025-04');
  await until(page, () => [...document.querySelectorAll('dialog.find li')].length > 0 && [...document.querySelectorAll('dialog.find li')].every((one) => /2025-04/.test(one.textContent)));
  assert.deepEqual(await violations(page), []);
  if (shots) await page.screenshot({ path: `${shots}/find-1280.png` });
  await page.locator('dialog.find li button').first().click();
  await until(page, (from) => location.hash.startsWith(`#/pair/${from}/`), id);
  await shown(page);
  await laid(page);
  await visit(page, 'pair');
  await page.keyboard.press('Enter');
  await page.locator('dialog.find').waitFor();
  await page.keyboard.press('Escape');
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('a strip is turned end for end by one key, in the ledger, and taken back', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  const id = served.truth.fresh[0];
  const photo = await page.evaluate(async (capture) => (await (await fetch(`/api/capture/${capture}`)).json()).photos[0].photo, id);
  await visit(page, `midline/${id}/${photo}`);
  const box = await page.locator('.board canvas').boundingBox();
  for (const share of [0.1, 0.5, 0.9]) await page.mouse.click(box.x + box.width / 2, box.y + box.height * share);
  const [strip] = [page.locator('.strip img')];
  await strip.waitFor();
  await page.keyboard.press('s');
  const why = page.locator('#why-all-the-same'); // the drawn pond's photos are strips: the network may see no belly in them
  await until(page, () => /^Saved/.test(document.querySelector('.midline > .told').textContent) || document.querySelector('#why-all-the-same'));
  if (await why.count()) {
    await why.fill('a drawn photo');
    await page.keyboard.press('Enter');
    await until(page, () => /^Saved/.test(document.querySelector('.midline > .told').textContent));
  }
  const pixels = () => page.evaluate(async (of) => {
    const image = await createImageBitmap(await (await fetch(`/strip/${of}?at=${Math.random()}`)).blob());
    const canvas = new OffscreenCanvas(16, 32), c = canvas.getContext('2d');
    c.drawImage(image, 0, 0, 16, 32);
    return [...c.getImageData(0, 0, 16, 32).data];
  }, photo);
  const upright = await pixels();
  await visit(page, `capture/${id}`);
  await onTable(page, id);
  await redrawn(page, () => page.keyboard.press('e'));
  const turned = await pixels();
  const apart = (a, b) => a.reduce((sum, value, i) => sum + Math.abs(value - b[i]), 0) / a.length;
  const endForEnd = Array.from({ length: 512 }, (_, i) => upright.slice(4 * (511 - i), 4 * (511 - i) + 4)).flat();
  assert.ok(apart(turned, endForEnd) < 0.5 * apart(turned, upright), `${apart(turned, endForEnd)} ${apart(turned, upright)}`);
  assert.equal((await served.ledger(page, 'examination')).length, 2);
  await page.locator('button', { hasText: 'Undo: a strip turned' }).waitFor();
  await redrawn(page, () => page.keyboard.press('z'));
  assert.ok(apart(await pixels(), upright) < 1);
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('the ledger shows what stood on the screen, is filtered, and goes out whole', async () => {
  const served = await Served.draw('disputed');
  const page = await open(browser, served, 'LL');
  await ranked(page);
  const sure = await page.evaluate(async () => (await (await fetch('/api/night')).json()).queue.find((one) => one.advice === 'same').capture);
  await visit(page, `capture/${sure}`);
  await onTable(page, sure);
  await page.keyboard.press('s');
  await until(page, (was) => !location.hash.includes(was), sure);
  await saved(page);
  await visit(page, 'disputes');
  await page.keyboard.press('r');
  await page.keyboard.type('all five dots agree');
  await page.keyboard.press('Escape');
  await page.keyboard.press('s');
  await page.waitForSelector('.done');
  await visit(page, 'ledger');
  const text = await page.locator('main').innerText();
  assert.match(text, /[0-9a-f]{64}/, 'the head hash in full');
  assert.match(text, /adjudication/);
  assert.match(text, /It settles KM on .*: c\d+ and c\d+, different/);
  await page.locator('details', { hasText: 'On the table' }).first().locator('summary').click();
  assert.match(await page.locator('details[open]').first().innerText(), /Probability[\s\S]*%[\s\S]*New: /);
  assert.deepEqual(await violations(page), []);
  if (shots) await page.screenshot({ path: `${shots}/ledger-open-1280.png` });
  // By person, by capture, by individual, by day.
  await redrawn(page, () => page.locator('#person').selectOption('LL'));
  const rows = () => page.locator('table.entries > tbody > tr').count();
  assert.equal(await rows(), 2);
  await visit(page, `ledger/-/-/-/-/${sure}`);
  assert.equal(await rows(), 3, 'its capture, its photo, its verdict');
  await redrawn(page, () => page.locator('button', { hasText: 'About its individual' }).click());
  assert.ok(await rows() > 3);
  assert.match(await page.locator('main').innerText(), /speaks of individual/);
  await visit(page, 'ledger/-/-/-/-/-/-/2031-01-01');
  assert.match(await page.locator('main').innerText(), /No entry is like that/);
  const csv = await page.evaluate(async () => (await fetch('/api/ledger/export?actor=LL')).text());
  const lines = csv.trim().split('\r\n');
  assert.equal(lines.length, 3);
  assert.match(lines[0], /^position,entry,time,actor/);
  assert.match(lines[2], /adjudicat|settles/);
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});
