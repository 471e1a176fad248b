// The researcher's pages: found, named, noted, measured, laid out by likeness, by night and by place. With the keyboard.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { launch, open, redrawn, saved, Served, shown, until, visit } from './harness.mjs';

let browser, served;
before(async () => {
  browser = await launch();
  served = await Served.draw('surveyed');
});
after(async () => { await browser.close(); await served.end(); });

const places = (page) => page.locator('.heading .places').innerText();

test('individuals are found by sex, place, season and size, with the keyboard alone', async () => {
  const page = await open(browser, served, 'TR');
  await visit(page, 'individuals');
  assert.equal(await places(page), '8 individuals');
  await page.keyboard.press('/');
  await page.keyboard.press('Tab'); // the sex
  await page.keyboard.press('f');
  await page.keyboard.press('Enter');
  await page.locator('#svl_from').focus();
  await page.keyboard.type('63');
  await page.keyboard.press('Enter');
  await until(page, () => /^3 of 8/.test(document.querySelector('.heading .places')?.textContent)); // lengths are 61 to 68 mm, every other a female
  assert.match(await page.evaluate(() => decodeURIComponent(location.hash)), /sex=female/);
  assert.equal(await page.locator('#sex').inputValue(), 'female', 'what was asked for stands there again');
  await page.locator('#season').selectOption('2025');
  await page.locator('#svl_to').fill('10');
  await page.keyboard.press('Enter');
  await until(page, () => document.querySelector('main').textContent.includes('Nobody fits all of that'));
  await page.locator('a', { hasText: 'Everyone' }).click();
  await until(page, () => document.querySelector('.heading .places')?.textContent === '8 individuals');
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test('a label and notes are edited, refused where they must be, and stay in the ledger', async () => {
  const page = await open(browser, served, 'KM');
  const [[first], [second]] = served.truth.captures;
  await visit(page, `individual/${first}`);
  const rename = async (name) => {
    await page.locator('button', { hasText: 'Edit' }).first().focus();
    await page.keyboard.press('Enter');
    await page.locator('.heading input').fill(name);
    await page.keyboard.press('Enter');
  };
  await redrawn(page, () => rename('Dot'));
  assert.equal(await page.locator('h1').innerText(), 'Dot');
  await redrawn(page, () => rename('Dash'));
  assert.match(await places(page), /also Dot/);
  const note = page.locator('td.says').first();
  await note.locator('button').click();
  await note.locator('textarea').fill('tail tip lost');
  await note.locator('button[type=submit]').click();
  await until(page, () => /tail tip lost/.test(document.querySelector('td.says').innerText) && !document.querySelector('td.says textarea'));
  await saved(page);
  await visit(page, `individual/${second}`);
  await rename('dash');
  await until(page, () => /another individual bears it/.test(document.querySelector('.heading [role=status].problem')?.textContent));
  await page.keyboard.press('Escape');
  assert.equal((await served.ledger(page, 'label')).length, 2);
  assert.equal((await served.ledger(page, 'correction')).filter((one) => one.actor === 'KM').length, 1);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test('the calendar leads to nights and reports, year by year', async () => {
  const page = await open(browser, served, 'TR');
  await visit(page, 'calendar');
  assert.equal(await page.locator('h1').innerText(), 'Nights of 2031');
  const empty = page.locator('.worked.empty[href]');
  assert.match(await empty.getAttribute('aria-label'), /20 May 2031: nothing caught/);
  assert.match(await page.locator('.worked.open[href]').getAttribute('aria-label'), /14 May 2031: 9 captures, 9 open/);
  await page.keyboard.press('ArrowLeft');
  await until(page, () => document.querySelector('h1').textContent === 'Nights of 2026');
  await page.locator('select[aria-label=Place]').selectOption({ label: 'Alder Fen, south' });
  await until(page, () => [...document.querySelectorAll('tbody td:nth-child(2)')].every((one) => !one.textContent.includes('north')));
  await page.locator('a', { hasText: 'Report' }).first().click();
  await until(page, () => location.hash.startsWith('#/report/2026-'));
  await shown(page);
  assert.match(await page.locator('h1').innerText(), /^Report of/);
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test('the map is exact here, and its names lead to who was met there', async () => {
  const page = await open(browser, served, 'TR');
  await visit(page, 'map');
  assert.match(await page.locator('main').innerText(), /shown on this machine alone[\s\S]*52\.12510° N/);
  assert.equal(await page.locator('svg.ponds .pond').count(), 2);
  await page.locator('td a', { hasText: 'north' }).click();
  await until(page, () => document.querySelector('.heading .places')?.textContent === '4 of 8 individuals');
  assert.deepEqual(page.problems, []);
  await page.context().close();
});

test('everyone lies in the catalogue of strips, and it prints with strips of 30 mm', async () => {
  const page = await open(browser, served, 'TR');
  await visit(page, 'strips');
  assert.equal(await page.locator('.sheet li').count(), 8);
  const [printed] = await Promise.all([page.context().waitForEvent('page'), page.locator('a', { hasText: 'Open to print' }).click()]);
  await printed.waitForLoadState();
  await printed.emulateMedia({ media: 'print' });
  const widths = await printed.locator('img.strip').evaluateAll((all) => all.map((one) => (one.getBoundingClientRect().width / 96) * 25.4));
  assert.equal(widths.length, 8);
  for (const mm of widths) assert.ok(mm >= 30, `${mm} mm`);
  await page.context().close();
});

test('costs are set, and kept in the catalogue', async () => {
  const page = await open(browser, served, 'KM');
  await visit(page, 'settings');
  await redrawn(page, async () => {
    await page.locator('#wrong_join').fill('100');
    await page.keyboard.press('Enter');
  });
  assert.match(await page.locator('main').innerText(), /A wrong join is 100 times as bad[\s\S]*Said by KM/);
  await page.locator('input[value=light]').check();
  assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), 'light');
  assert.deepEqual(page.problems, []);
  await page.context().close();
});
