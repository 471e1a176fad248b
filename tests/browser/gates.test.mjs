// Nothing absurd is recorded unasked: each gate with what cannot be and with the like that can; and captures that
// belong to nobody are closed.
import assert from 'node:assert/strict';
import { mkdirSync } from 'node:fs';
import { after, before, test } from 'node:test';
import { laid, launch, onTable, open, ranked, redrawn, saved, Served, shown, until, verdictsOf, violations, visit } from './harness.mjs';

const shots = process.env.EVET_SCREENSHOTS;
let browser;
before(async () => { browser = await launch(); if (shots) mkdirSync(shots, { recursive: true }); });
after(() => browser.close());

const dialog = (page) => page.locator('dialog.against');
// Lays the candidate of this animal on the table.
async function choose(page, animal) {
  await page.locator(`.candidates [data-individual="${animal}"]`).click();
  await until(page, (wanted) => document.querySelector('.candidates [aria-pressed=true]').dataset.individual === wanted, animal);
}

for (const [width, height, theme] of [[1280, 720, 'dark'], [1920, 1080, 'light'], [390, 844, 'light']]) {
  test(`what cannot be is said first, and recorded only with a reason, at ${width} x ${height}`, async () => {
    const served = await Served.draw();
    const page = await open(browser, served, 'TR', { viewport: { width, height } });
    await page.evaluate((name) => localStorage.setItem('evet.theme', name), theme);
    await page.reload();
    await ranked(page);
    const [again] = Object.entries(served.truth.again).find(([, animal]) => animal === served.truth.captures[0][0]);
    await visit(page, `capture/${again}`);
    await onTable(page, again);
    // Animals of even number are female, the others male.
    await choose(page, served.truth.captures[1][0]);
    await page.keyboard.press('s');
    await dialog(page).waitFor();
    assert.match(await dialog(page).innerText(), /sex: male on .*, female on /i);
    assert.equal(await dialog(page).locator('img').count(), 2, 'the two pictures');
    await until(page, () => [...document.querySelectorAll('dialog img')].every((one) => one.complete && one.naturalWidth > 0));
    assert.deepEqual(await violations(page), []);
    if (shots) await page.screenshot({ path: `${shots}/gate-${width}-${theme}.png` });
    // Without a reason the form does not go.
    await page.keyboard.press('Enter');
    assert.ok(await dialog(page).isVisible());
    await page.keyboard.press('Escape');
    await dialog(page).waitFor({ state: 'detached' });
    assert.equal((await verdictsOf(served, page, 'TR')).length, 0);
    assert.match(await page.evaluate(() => location.hash), new RegExp(again), 'the capture still lies there');

    await page.keyboard.press('s');
    await dialog(page).waitFor();
    await page.keyboard.type('sexed wrongly in the dark');
    await page.keyboard.press('Enter');
    await until(page, (was) => !location.hash.includes(was), again);
    await saved(page);
    const [said] = await verdictsOf(served, page, 'TR');
    assert.deepEqual(said.what.in_spite_of.map((one) => [one.code, one.reason]), [['other_sex', 'sexed wrongly in the dark']]);
    assert.deepEqual(page.problems, []);
    await page.context().close();
    await served.end();
  });
}

test('an animal is not in two hands the same night, said by keyboard one after the other', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  const animal = served.truth.captures[2][0];
  const [again] = Object.entries(served.truth.again).find(([, of]) => of === animal);
  const other = Object.entries(served.truth.again).find(([, of]) => of === served.truth.captures[4][0])[0]; // as female
  await visit(page, `capture/${again}`);
  await onTable(page, again);
  await choose(page, animal);
  await page.keyboard.press('s');
  await until(page, (was) => !location.hash.includes(was), again); // the true case: not a word
  assert.equal(await dialog(page).count(), 0);
  await saved(page);
  await visit(page, `capture/${other}`);
  await onTable(page, other);
  await choose(page, animal);
  await page.keyboard.press('s');
  await dialog(page).waitFor();
  assert.match(await dialog(page).innerText(), /in hand on 2031-05-14 already/);
  await dialog(page).locator('button', { hasText: 'Go back' }).click();
  await dialog(page).waitFor({ state: 'detached' });
  assert.equal((await verdictsOf(served, page, 'TR')).length, 1);
  // The program behind the page refuses it as well.
  const [status, sentence] = await page.evaluate(async ([capture, held]) => {
    const hello = await (await fetch('/api/hello')).json();
    const answer = await fetch('/api/verdict', { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Evet-Guard': hello.write_key, 'X-Evet-Reader': 'TR' },
      body: JSON.stringify({ capture, other: held, answer: 'same', reason: 'said past the page', after: hello.position }) });
    return [answer.status, (await answer.json()).error.sentence];
  }, [other, again]);
  assert.equal(status, 409);
  assert.match(sentence, /in hand on 2031-05-14 already/);
  await page.context().close();
  await served.end();
});

test('an unusable capture is no new animal, and is closed', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  const [id] = served.truth.unusable;
  await visit(page, `capture/${id}`);
  await page.locator('.verdicts .new').waitFor();
  await page.keyboard.press('n');
  await dialog(page).waitFor();
  assert.match(await dialog(page).innerText(), /no photo of capture .* can be matched/i);
  await page.keyboard.press('Escape');
  await dialog(page).waitFor({ state: 'detached' });
  await page.keyboard.press('q');
  await page.locator('dialog.close').waitFor();
  assert.deepEqual(await violations(page), []);
  if (shots) await page.screenshot({ path: `${shots}/close-1280.png` });
  await page.locator('#close-reason').fill('an empty tray');
  await page.locator('dialog.close button', { hasText: 'No animal in it' }).click();
  await until(page, (was) => !location.hash.includes(was), id);
  await saved(page);
  await visit(page, 'night');
  await until(page, () => /0\s*unusable\s*1\s*closed/.test(document.querySelector('.glance')?.innerText ?? ''));
  assert.match(await page.locator('main').innerText(), /no animal in it/);
  const [closing] = await served.ledger(page, 'closing');
  assert.deepEqual([closing.what.as, closing.what.reason], ['no_animal', 'an empty tray']);
  await page.locator('button', { hasText: 'Undo:' }).waitFor();
  await page.keyboard.press('z');
  await until(page, () => /1\s*unusable/.test(document.querySelector('.glance')?.innerText ?? ''));
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('a midline off the body is shown and needs a reason', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  const id = served.truth.fresh[0];
  const photo = await page.evaluate(async (capture) => (await (await fetch(`/api/capture/${capture}`)).json()).photos[0].photo, id);
  await visit(page, `midline/${id}/${photo}`);
  const box = await page.locator('.board canvas').boundingBox();
  for (const share of [0.1, 0.9]) await page.mouse.click(box.x + box.width / 2, box.y + box.height * share);
  await until(page, () => /Not saved yet/.test(document.querySelector('.strip').textContent) && document.querySelector('.strip img')?.naturalHeight > 0);
  assert.equal((await served.ledger(page, 'examination')).length, 0, 'shown, and nothing recorded');
  await page.context().close();
  await served.end();
});

test('the population of an empty catalogue leaves every way open', async () => {
  const served = await Served.draw('empty');
  const page = await open(browser, served, 'TR');
  for (const path of ['population', 'individuals', 'ledger', 'disputes', 'night']) {
    await visit(page, path);
    assert.ok((await page.locator('main h1').innerText()).length > 0, path);
  }
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('after a cold start Enter opens the first only when it is known which that is', async () => {
  const served = await Served.draw();
  const page = await open(browser, served, 'TR');
  await ranked(page);
  const first = await page.evaluate(async () => (await (await fetch('/api/night', { headers: { 'X-Evet-Reader': 'TR' } })).json()).queue[0].capture);
  // As it is before anything is compared: another order, and nobody knows a better one.
  let cold = true;
  await page.route(/\/api\/night(\/|$)/, async (route) => {
    const response = await route.fetch(), night = await response.json();
    if (cold) Object.assign(night, { generation: 0, queue: night.queue.toReversed().map((one) => ({ ...one, why: ['not ranked yet'], advice: null })), ranking: { running: true, done: 0, all: 8, failed: '' } });
    await route.fulfill({ response, json: night });
  });
  await page.reload();
  await until(page, () => document.querySelector('.glance') && document.querySelector('.waiting'));
  await page.keyboard.press('Enter');
  await until(page, () => /opens as soon as that is known/.test(document.querySelector('.waiting')?.textContent));
  assert.doesNotMatch(await page.evaluate(() => location.hash), /capture/);
  cold = false;
  await until(page, (wanted) => location.hash === `#/capture/${wanted}`, first);
  await page.unrouteAll({ behavior: 'wait' }); // an answer may still be on its way
  await page.context().close();
  await served.end();
});
