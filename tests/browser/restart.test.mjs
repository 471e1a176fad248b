// The program is killed, or started anew, while a page is open: what was said is kept, and said once.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { launch, onTable, open, ranked, saved, Served, shown, until, verdictsOf, visit } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

const savedState = (page, state) => until(page, (wanted) => document.getElementById('saved').dataset.state === wanted, state);

test('the program is killed, and what was said meanwhile is kept and said once', async () => {
  const served = await Served.draw();
  let page = await open(browser, served, 'TR');
  const context = page.context(), [id] = served.truth.fresh;
  await ranked(page);
  await visit(page, `capture/${id}`);
  await onTable(page, id);
  await served.kill();
  await page.keyboard.press('n');
  await savedState(page, 'waiting');
  await page.close();
  await served.start();
  page = await open(browser, served, 'TR', { context });
  await saved(page);
  await page.reload();
  await shown(page);
  const said = await verdictsOf(served, page, 'TR');
  assert.equal(said.length, 1);
  assert.equal(said[0].what.capture, id);
  await context.close();
  await served.end();
});

test('a page left open when the program was started anew says so and keeps what was said', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  const id = served.truth.fresh[1];
  await ranked(page);
  await visit(page, `capture/${id}`);
  await onTable(page, id);
  await served.kill();
  await served.start();
  await page.keyboard.press('n');
  await savedState(page, 'stopped');
  assert.match(await page.locator('#saved').innerText(), /open the address/);
  await page.goto(served.url);
  await shown(page);
  await saved(page);
  assert.equal((await verdictsOf(served, page, 'TR')).length, 1);
  await page.context().close();
  await served.end();
});
