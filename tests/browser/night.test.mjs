// A whole night settled by keyboard; and whatever happens in between, nothing is lost or doubled.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { captureShown, launch, open, ranked, saved, Served, until } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

async function judge(page, served) {
  const id = await captureShown(page);
  await until(page, () => document.querySelector('.verdicts .new'));
  const mine = served.truth.again[id];
  if (mine) {
    // Down the list until the animal lies there that it is.
    const position = await page.evaluate(async ([capture, animal]) => {
      const json = await (await fetch(`/api/capture/${capture}`)).json();
      return json.candidates.findIndex((one) => one.individual_id === animal);
    }, [id, mine]);
    assert.ok(position >= 0, 'the right animal is among the candidates');
    for (let i = 0; i < position; ++i) await page.keyboard.press('ArrowDown');
  }
  await page.keyboard.press(mine ? 's' : 'n');
  await until(page, (was) => location.hash.split('/')[2] !== was, id);
  return id;
}

test('a night is settled by keyboard alone', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  await page.keyboard.press('Enter');
  const seen = new Set();
  for (let i = 0; i < 8; ++i) {
    await page.waitForSelector('.view.capture');
    seen.add(await judge(page, served));
  }
  await page.waitForSelector('.done');
  await saved(page);
  assert.equal(seen.size, 8);
  assert.match(await page.locator('.glance').innerText(), /5\s*caught again\s*3\s*new\s*0\s*to look at\s*1\s*unusable/);
  const verdicts = (await served.ledger(page, 'verdict')).filter((entry) => entry.actor === 'TR');
  assert.equal(verdicts.length, 8);
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('reload, back and undo in the middle lose and double nothing', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.view.capture');
  const first = await judge(page, served);
  await saved(page);
  await page.reload();
  await page.waitForSelector('.view.capture');
  const second = await judge(page, served);
  assert.notEqual(second, first);
  await saved(page);
  await page.goBack();
  await until(page, (id) => location.hash.includes(id), second);
  await page.waitForSelector('.view.capture h1');
  let verdicts = (await served.ledger(page, 'verdict')).filter((entry) => entry.actor === 'TR');
  assert.equal(verdicts.length, 2);
  await page.locator('nav a', { hasText: 'Night' }).first().click();
  await page.waitForSelector('.glance');
  await page.keyboard.press('z');
  await until(page, () => /7\s*to look at/.test(document.querySelector('.glance')?.innerText ?? ''));
  await page.keyboard.press('y');
  await until(page, () => /6\s*to look at/.test(document.querySelector('.glance')?.innerText ?? ''));
  verdicts = (await served.ledger(page, 'verdict')).filter((entry) => entry.actor === 'TR');
  assert.equal(verdicts.length, 2);
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
    await page.goto(`${served.url.split('?')[0]}#/capture/${id}`);
    await page.waitForSelector('.verdicts .new');
  }
  await one.keyboard.press('n');
  await two.keyboard.press('n');
  await saved(one);
  await saved(two);
  const other = await open(browser, served, 'KM');
  await other.goto(`${served.url.split('?')[0]}#/capture/${id}`);
  await other.waitForSelector('.verdicts .new');
  await other.keyboard.press('n');
  await saved(other);
  const said = (await served.ledger(other, 'verdict')).filter((entry) => entry.what.capture === id).map((entry) => entry.actor);
  assert.deepEqual(said.sort(), ['KM', 'TR']);
  await one.context().close();
  await other.context().close();
  await served.end();
});

test('the program is killed, and what was said meanwhile is kept and said once', async () => {
  const served = await Served.draw();
  let page = await open(browser, served, 'TR');
  const context = page.context();
  await ranked(page);
  await page.goto(`${served.url.split('?')[0]}#/capture/${served.truth.fresh[0]}`);
  await page.waitForSelector('.verdicts .new');
  await served.kill();
  await page.keyboard.press('n');
  await until(page, () => document.getElementById('saved').dataset.state === 'waiting');
  await page.close();
  await served.start();
  page = await open(browser, served, 'TR', { context });
  await saved(page);
  await page.reload();
  await page.waitForSelector('.glance');
  const said = (await served.ledger(page, 'verdict')).filter((entry) => entry.actor === 'TR');
  assert.equal(said.length, 1);
  assert.equal(said[0].what.capture, served.truth.fresh[0]);
  await context.close();
  await served.end();
});

test('a page left open when the program was started anew says so and keeps what was said', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  await page.goto(`${served.url.split('?')[0]}#/capture/${served.truth.fresh[1]}`);
  await page.waitForSelector('.verdicts .new');
  await served.kill();
  await served.start();
  await page.keyboard.press('n');
  await until(page, () => document.getElementById('saved').dataset.state === 'stopped');
  assert.match(await page.locator('#saved').innerText(), /open the address/);
  await page.goto(served.url);
  await page.waitForSelector('main h1');
  await saved(page);
  assert.equal((await served.ledger(page, 'verdict')).filter((entry) => entry.actor === 'TR').length, 1);
  await page.context().close();
  await served.end();
});
