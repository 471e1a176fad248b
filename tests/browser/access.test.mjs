// Everyone can use it: no motion where none is wanted, every control by keyboard, a page that loads at once. What axe says of
// every page is in every_page.test.mjs.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { laid, launch, onTable, open, ranked, saved, Served, until, verdictsOf, visit } from './harness.mjs';

let browser, served;
before(async () => {
  browser = await launch();
  served = await Served.draw('disputed');
});
after(async () => { await browser.close(); await served.end(); });

const pages = () => ({
  night: 'night', capture: `capture/${served.truth.fresh[0]}`, settled: `capture/${served.truth.captures[1][1]}`,
  pair: `pair/${served.truth.captures[1][0]}/${served.truth.captures[2][0]}`, second: 'second', disputes: 'disputes', individuals: 'individuals',
  individual: `individual/${served.truth.captures[3][0]}`, population: 'population', ledger: 'ledger/2031-01-01',
});

// The page with everything in it that comes by itself.
async function goTo(page, path) {
  await visit(page, path);
  const [name, id] = path.split('/');
  if (name === 'night') await ranked(page);
  if (name === 'capture') await onTable(page, id);
  if (['capture', 'pair', 'disputes'].includes(name)) await laid(page);
  if (name === 'population') await until(page, () => document.querySelectorAll('.plot svg').length >= 3 && /drawn \d+ times|second figure/.test(document.querySelector('main').innerText));
  if (name === 'individual') await page.waitForSelector('.plot svg');
  await until(page, () => [...document.images].every((one) => one.complete || one.loading === 'lazy'));
}

test('blinking stays off where no motion is wanted', async () => {
  // What the table shows, twice a second or so; ends when two different pictures were seen, or after `looks` of them.
  const pictures = async (reducedMotion, looks) => {
    const page = await open(browser, served, 'TR', { reducedMotion });
    await goTo(page, `pair/${served.truth.captures[1][0]}/${served.truth.captures[1][1]}`);
    await page.keyboard.press('b');
    await until(page, () => document.querySelector('.tools [aria-pressed=true]').textContent.includes('Blink'));
    const picture = () => page.evaluate(() => document.querySelector('canvas').toDataURL());
    // Strips and spots come one after the other: what is still being drawn does not blink.
    for (let i = 0, before = ''; i < 20; ++i) {
      const now = await picture();
      if (now === before) break;
      before = now;
      await page.waitForTimeout(300);
    }
    const seen = new Set();
    for (let i = 0; i < looks && seen.size < 2; ++i) {
      seen.add(await picture());
      await page.waitForTimeout(150);
    }
    const told = await page.locator('.extra').innerText();
    await page.context().close();
    return [seen.size, told];
  };
  const [still, words] = await pictures('reduce', 12);
  assert.equal(still, 1);
  assert.match(words, /no motion/);
  const [moving] = await pictures('no-preference', 400);
  assert.equal(moving, 2, 'elsewhere it blinks');
});

test('every control can be reached by the Tab key and shows its focus', async () => {
  const page = await open(browser, served, 'TR');
  await goTo(page, `capture/${served.truth.fresh[0]}`);
  await page.evaluate(() => document.activeElement?.blur());
  const wanted = await page.evaluate(() => [...document.querySelectorAll('button, a[href], input, select')].filter((node) => node.offsetParent && !node.disabled).length);
  const reached = new Set();
  for (let i = 0; i < wanted + 5; ++i) {
    await page.keyboard.press('Tab');
    const [index, outline, what] = await page.evaluate(() => {
      const node = document.activeElement;
      return [[...document.querySelectorAll('*')].indexOf(node), getComputedStyle(node).outlineStyle, node.outerHTML.slice(0, 120)];
    });
    if (what.startsWith('<body') || what.startsWith('<html')) continue; // round the end of the page
    reached.add(index);
    assert.notEqual(outline, 'none', what);
  }
  assert.ok(reached.size >= wanted, `${reached.size} of ${wanted} reached`);
  await page.context().close();
});

test('single-letter keys can be turned off', async () => {
  const page = await open(browser, served, 'TR');
  await goTo(page, `capture/${served.truth.fresh[0]}`);
  await page.keyboard.press('?');
  await page.waitForSelector('dialog.keys');
  await page.locator('#single-keys').uncheck();
  await page.keyboard.press('Escape');
  await until(page, () => !document.querySelector('dialog'));
  await page.keyboard.press('n');
  await page.keyboard.press('ArrowDown'); // answered after the letter, and at once
  await until(page, () => document.querySelectorAll('.candidates button')[1]?.getAttribute('aria-pressed') === 'true');
  assert.match(await page.evaluate(() => location.hash), /capture/);
  await saved(page);
  assert.equal((await verdictsOf(served, page, 'TR')).length, 0);
  await page.context().close();
});

test('the whole page weighs less than a megabyte without photos', async () => {
  const page = await open(browser, served, 'TR');
  await page.evaluate(() => performance.setResourceTimingBufferSize(5000));
  for (const path of Object.values(pages())) await goTo(page, path);
  const bytes = await page.evaluate(() => performance.getEntries().filter((one) => one.entryType === 'navigation' || /\.(js|css|html|svg)$/.test(one.name))
    .reduce((sum, one) => sum + (one.decodedBodySize ?? 0), 0));
  assert.ok(bytes > 400_000 && bytes < 1_000_000, `${bytes} bytes`);
  await page.context().close();
});
