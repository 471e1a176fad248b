// A dispute raised, read blind by a second reader, adjudicated by a third: all by keyboard.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { launch, open, redrawn, saved, Served, until, visit } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

const reasoned = async (page, words) => {
  await page.keyboard.press('r');
  await page.keyboard.type(words);
  await page.keyboard.press('Escape');
};

test('a dispute is raised, read blind and adjudicated', async () => {
  const served = await Served.draw();
  const [older, younger] = served.truth.captures[0]; // OB1 says that they are the same
  const raiser = await open(browser, served, 'KM');
  await visit(raiser, `pair/${younger}/${older}`);
  await reasoned(raiser, 'the chin row is shorter');
  await raiser.keyboard.press('d');
  await until(raiser, () => document.querySelector('#dispute-count').textContent.trim() === '1');
  await visit(raiser, 'disputes');
  assert.match(await raiser.locator('main').innerText(), /a third reader decides/);

  const blind = await open(browser, served, 'LL');
  await visit(blind, 'second');
  let read = false;
  for (let i = 0; i < 40 && !read; ++i) {
    const text = await blind.locator('main').innerText();
    for (const word of ['chin', 'KM', 'OB1', '%', 'tied']) assert.ok(!text.includes(word), `a blind reader sees ${word}`);
    if (/The photo alone/.test(text)) {
      assert.equal(await blind.evaluate(() => document.querySelectorAll('.view.second img').length), 0);
      await redrawn(blind, () => blind.keyboard.press('u'));
    } else {
      const item = await blind.evaluate(async () => (await (await fetch('/api/second', { headers: { 'X-Evet-Reader': 'LL' } })).json()).item);
      read = item.capture === younger && item.candidate.capture === older;
      await redrawn(blind, () => blind.keyboard.press('s'));
    }
  }
  assert.ok(read, 'the disputed pair comes to the second reader');
  await saved(blind);

  const third = await open(browser, served, 'MP');
  await visit(third, 'disputes');
  const text = await third.locator('main').innerText();
  for (const word of ['chin', 'KM', 'OB1', 'LL', 'blind']) assert.ok(text.includes(word), `the adjudicator sees ${word}`);
  await third.keyboard.press('s');
  await until(third, () => /needs a reason/.test(document.querySelector('.dispute .told').textContent));
  await third.keyboard.press('Escape');
  await reasoned(third, 'all five dots of the throat agree');
  await redrawn(third, () => third.keyboard.press('s'));
  await third.waitForSelector('.done');
  assert.equal(await third.evaluate(async () => (await (await fetch('/api/hello')).json()).disputes), 0);
  for (const page of [raiser, blind, third]) {
    assert.deepEqual(page.problems, []);
    await page.context().close();
  }
  await served.end();
});
