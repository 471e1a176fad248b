// Individuals are joined and split by verdicts on pairs, from the pages that show them; all by keyboard.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { judged, laid, launch, onTable, open, ranked, saved, Served, shown, until, visit } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

const capturesOf = (page, id) => page.evaluate(async (one) => (await (await fetch(`/api/individual/${one}`)).json()).captures.map((each) => each.capture), id);
const told = (page, words) => until(page, (wanted) => document.querySelector('.side .told').textContent.includes(wanted), words);
// Follows the link that has the focus to a pair, and waits until both strips lie there.
const toPair = async (page) => {
  await page.keyboard.press('Enter');
  await until(page, () => location.hash.startsWith('#/pair/'));
  await shown(page);
  await laid(page);
};
const done = async (page, served) => {
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
};

test('an individual is split at a capture, and joined again', async () => {
  const served = await Served.draw();
  const [[older, younger]] = served.truth.captures;
  const page = await open(browser, served, 'OB1'); // whose own verdict it was: no dispute comes of it
  await visit(page, `individual/${older}`);
  const name = await page.locator('h1').innerText();
  await page.locator('tbody a', { hasText: 'Look again' }).last().focus();
  await toPair(page);
  await page.keyboard.press('d');
  await told(page, 'Saved: different.');
  // Only after the verdict, what the sheet says of both: in words, each under its name.
  await until(page, () => document.querySelectorAll('.side dl.facts').length === 2);
  const facts = await page.locator('.side').innerText();
  assert.equal(facts.match(/snout–vent length, mm/g)?.length, 2);
  assert.doesNotMatch(facts, /object/);
  assert.deepEqual(await capturesOf(page, older), [older]);
  await page.locator('.side a', { hasText: 'belongs to no individual now' }).focus();
  await page.keyboard.press('Enter');
  await onTable(page, younger);
  await page.keyboard.press('n');
  await judged(page, 'OB1', served.truth.captures.length * 2 + 2);
  assert.deepEqual(await capturesOf(page, younger), [younger]);

  await visit(page, `individual/${younger}`);
  assert.equal(await page.evaluate(async () => (await (await fetch('/api/hello')).json()).disputes), 0);
  await page.locator('#join').focus();
  await page.keyboard.type(name);
  await page.keyboard.press('Enter');
  await page.locator('a', { hasText: `Hold against ${name}` }).focus();
  await toPair(page);
  await page.keyboard.press('s');
  await told(page, 'Saved: same.');
  await saved(page);
  assert.deepEqual(await capturesOf(page, younger), [older, younger]);
  await visit(page, `individual/${older}`);
  assert.equal(await page.locator('h1').innerText(), name, 'the older name stays');
  await done(page, served);
});

test('two captures of a night that may be one new animal are held together', async () => {
  const served = await Served.draw('twice');
  const [first] = served.truth.fresh, [second] = served.truth.twice;
  const page = await open(browser, served, 'TR');
  await ranked(page);
  assert.match(await page.locator('main').innerText(), /may be one new animal with/);
  await visit(page, `capture/${second}`);
  await onTable(page, second);
  await page.locator('.side a', { hasText: 'hold them together' }).focus();
  await toPair(page);
  await page.keyboard.press('s');
  await page.locator('#why-all-the-same').fill('netted again after release'); // the same night: a reason is wanted
  await page.keyboard.press('Enter');
  await told(page, 'Saved: same.');
  assert.deepEqual((await capturesOf(page, second)).sort(), [first, second].sort());
  await page.locator('.place a', { hasText: 'Night' }).first().click();
  await ranked(page);
  assert.doesNotMatch(await page.locator('main').innerText(), /may be one new animal with/);
  await done(page, served);
});
