// A dispute raised, read blind by a second reader, adjudicated by a third: all by keyboard.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { launch, open, saved, Served, until } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

const at = (served, path) => `${served.url.split('?')[0]}#/${path}`;

test('a dispute is raised, read blind and adjudicated', async () => {
  const served = await Served.draw();
  const [older, younger] = served.truth.captures[0]; // OB1 says that they are the same
  const raiser = await open(browser, served, 'KM');
  await raiser.goto(at(served, `pair/${younger}/${older}`));
  await raiser.waitForSelector('.verdicts .different');
  await raiser.keyboard.press('r');
  await raiser.keyboard.type('the chin row is shorter');
  await raiser.keyboard.press('Escape');
  await raiser.keyboard.press('d');
  await until(raiser, () => document.querySelector('#dispute-count').textContent.trim() === '1');
  await raiser.goto(at(served, 'disputes'));
  await raiser.waitForSelector('.dispute');
  assert.match(await raiser.locator('main').innerText(), /a third reader decides/);

  const blind = await open(browser, served, 'LL');
  await blind.goto(at(served, 'second'));
  let read = false;
  for (let i = 0; i < 40 && !read; ++i) {
    await blind.waitForSelector('.view.second .verdicts');
    const text = await blind.locator('main').innerText();
    for (const word of ['chin', 'KM', 'OB1', '%', 'tied']) assert.ok(!text.includes(word), `a blind reader sees ${word}`);
    if (/The photo alone/.test(text)) {
      const pictures = await blind.evaluate(() => document.querySelectorAll('.view.second img').length);
      assert.equal(pictures, 0);
      await blind.keyboard.press('u');
    } else {
      const item = await blind.evaluate(async () => (await (await fetch('/api/second', { headers: { 'X-Evet-Reader': 'LL' } })).json()).item);
      read = item.capture === younger && item.candidate.capture === older;
      await blind.keyboard.press('s');
    }
    const before = text;
    await until(blind, (was) => document.querySelector('main').innerText !== was, before);
  }
  assert.ok(read, 'the disputed pair comes to the second reader');
  await saved(blind);

  const third = await open(browser, served, 'MP');
  await third.goto(at(served, 'disputes'));
  await third.waitForSelector('.verdicts .same');
  const text = await third.locator('main').innerText();
  for (const word of ['chin', 'KM', 'OB1', 'LL', 'blind']) assert.ok(text.includes(word), `the adjudicator sees ${word}`);
  await third.keyboard.press('s');
  assert.match(await third.locator('.dispute .told').innerText(), /needs a reason/);
  await third.keyboard.press('Escape');
  await third.keyboard.press('r');
  await third.keyboard.type('all five dots of the throat agree');
  await third.keyboard.press('Escape');
  await third.keyboard.press('s');
  await third.waitForSelector('.done');
  assert.equal(await third.evaluate(async () => (await (await fetch('/api/hello')).json()).disputes), 0);
  for (const page of [raiser, blind, third]) {
    assert.deepEqual(page.problems, []);
    await page.context().close();
  }
  await served.end();
});
