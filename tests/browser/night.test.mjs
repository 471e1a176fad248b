// A whole night settled by keyboard; and whatever happens in between, nothing is lost or doubled.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { captureShown, launch, onTable, open, ranked, saved, Served, shown, until, verdictsOf, visit } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

// Settles the capture that lies there as what it is, and comes to the next page.
async function judge(page, served) {
  const id = await captureShown(page);
  await onTable(page, id);
  const mine = served.truth.again[id];
  if (mine) {
    // Down the list until the animal lies there that it is.
    const position = await page.evaluate((animal) => [...document.querySelectorAll('.candidates button')].findIndex((one) => one.dataset.individual === animal), mine);
    assert.ok(position >= 0, 'the right animal is among the candidates');
    for (let i = 0; i < position; ++i) await page.keyboard.press('ArrowDown');
    await until(page, (animal) => document.querySelector('.candidates [aria-pressed=true]').dataset.individual === animal, mine);
  }
  await page.keyboard.press(mine ? 's' : 'n');
  await until(page, (was) => !location.hash.includes(was), id);
  await shown(page);
  return id;
}

async function begin(page) {
  await ranked(page);
  await page.keyboard.press('Enter');
  await until(page, () => location.hash.startsWith('#/capture/'));
  await shown(page);
}

test('a night is settled by keyboard alone', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await begin(page);
  const seen = new Set();
  for (let i = 0; i < 8; ++i) seen.add(await judge(page, served));
  await page.waitForSelector('.done');
  await saved(page);
  assert.equal(seen.size, 8);
  await until(page, () => /5\s*caught again\s*3\s*new\s*0\s*to look at\s*1\s*unusable/.test(document.querySelector('.glance')?.innerText));
  const verdicts = await verdictsOf(served, page, 'TR');
  assert.equal(verdicts.length, 8);
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('reload, back and undo in the middle lose and double nothing', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await begin(page);
  const first = await judge(page, served);
  await saved(page);
  await page.reload();
  await shown(page);
  const second = await judge(page, served);
  assert.notEqual(second, first);
  await saved(page);
  await page.goBack();
  await shown(page, `capture/${second}`);
  assert.equal((await verdictsOf(served, page, 'TR')).length, 2);
  await page.locator('nav a[href="#/night"]').click();
  await shown(page, 'night');
  const button = (words) => page.locator('button', { hasText: words });
  await button('Undo:').waitFor();
  await page.keyboard.press('z');
  await until(page, () => /7\s*to look at/.test(document.querySelector('.glance')?.innerText ?? ''));
  await button('Redo:').waitFor();
  await page.keyboard.press('y');
  await until(page, () => /6\s*to look at/.test(document.querySelector('.glance')?.innerText ?? ''));
  await saved(page);
  assert.equal((await verdictsOf(served, page, 'TR')).length, 2);
  assert.equal((await served.ledger(page, 'withdrawal')).length, 2);
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('two windows of one reader say it once, two readers each say it', async () => {
  const served = await Served.draw();
  const one = await open(browser, served, 'TR');
  await ranked(one);
  const id = served.truth.fresh[0];
  const two = await open(browser, served, 'TR', { context: one.context() });
  for (const page of [one, two]) {
    await visit(page, `capture/${id}`);
    await onTable(page, id);
  }
  await one.keyboard.press('n');
  await two.keyboard.press('n');
  await saved(one);
  await saved(two);
  const other = await open(browser, served, 'KM');
  await visit(other, `capture/${id}`);
  await other.waitForSelector('.verdicts .new');
  await other.keyboard.press('n');
  await saved(other);
  const said = (await served.ledger(other, 'verdict')).filter((entry) => entry.what.capture === id).map((entry) => entry.actor);
  assert.deepEqual(said.sort(), ['KM', 'TR']);
  await one.context().close();
  await other.context().close();
  await served.end();
});

test('an answer that comes late does not bring back what is judged', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await begin(page);
  // The queue as it stood before the second verdict is held back until the second verdict has been given.
  let go, asked;
  const held = new Promise((resolve) => { go = resolve; }), asking = new Promise((resolve) => { asked = resolve; });
  await judge(page, served);
  await saved(page);
  await page.route('**/api/night/*', async (route) => {
    const response = await route.fetch();
    asked();
    await held;
    await route.fulfill({ response }).catch(() => {});
  });
  const seen = new Set([await judge(page, served)]);
  await asking;
  seen.add(await judge(page, served));
  go();
  await page.unroute('**/api/night/*');
  for (let i = 0; i < 5; ++i) {
    await until(page, () => document.querySelector('.side button')); // the side of the next one
    const id = await judge(page, served);
    assert.ok(!seen.has(id), 'judged already');
    seen.add(id);
  }
  await page.waitForSelector('.done');
  await page.context().close();
  await served.end();
});

test('a redrawing leaves the cursor where a reason is being written', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  const [first, second] = served.truth.fresh;
  await visit(page, `capture/${first}`);
  await onTable(page, first);
  // The answer that fills in what can be undone comes while the reason for the next one is half written.
  let go;
  const held = new Promise((resolve) => { go = resolve; });
  await page.route('**/api/verdict', async (route) => { await held; await route.continue(); });
  await page.keyboard.press('n');
  await until(page, (was) => !location.hash.includes(was), first);
  await visit(page, `capture/${second}`);
  await onTable(page, second);
  await page.keyboard.press('r');
  await page.keyboard.type('snout dark, ');
  go();
  await page.locator('button', { hasText: 'Undo:' }).waitFor();
  await page.keyboard.type('no scar');
  assert.equal(await page.locator('#reason').inputValue(), 'snout dark, no scar');
  await saved(page);
  assert.equal((await verdictsOf(served, page, 'TR')).length, 1, 'no letter of it was taken for a verdict');
  await page.context().close();
  await served.end();
});
