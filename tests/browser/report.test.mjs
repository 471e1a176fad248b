// The night's report as paper: written down in the page, opened, printed by a real browser, and the PDF read.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { launch, open, saved, Served, until, violations, visit } from './harness.mjs';

const shots = process.env.EVET_SCREENSHOTS;
let browser, served;
before(async () => {
  browser = await launch();
  served = await Served.draw('surveyed');
  if (shots) mkdirSync(shots, { recursive: true });
});
after(async () => { await browser.close(); await served.end(); });

const opened = async (page, words) => {
  const [report] = await Promise.all([page.context().waitForEvent('page'), page.locator('a', { hasText: words }).click()]);
  await report.waitForLoadState();
  return report;
};
const asText = (pdf) => execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' });

async function printed(report, name) {
  const pdf = join(served.folder, `${name}.pdf`);
  await report.pdf({ path: pdf, preferCSSPageSize: true, printBackground: true });
  if (shots) copyFileSync(pdf, join(shots, `${name}.pdf`));
  return asText(pdf).split('\f').slice(0, -1);
}

test('what was done is written down, and the authority reads it on paper', async () => {
  const page = await open(browser, served, 'KM', { colorScheme: 'dark' });
  await visit(page, `report/2031-05-14/${encodeURIComponent('pond=north')}`);
  await page.locator('#fact-effort').fill('many');
  await page.keyboard.press('Enter');
  await until(page, () => /effort: 'many' is not a number/.test(document.querySelector('form [role=status]').textContent));
  assert.equal(await page.evaluate(() => document.activeElement.id), 'fact-effort', 'the focus is on what has to be mended');
  for (const [key, text] of Object.entries({ method: 'bottle traps set at dusk', effort: '12', effort_unit: 'trap nights', weather: 'overcast, calm', holder: 'K. Moor' }))
    await page.locator(`#fact-${key}`).fill(text);
  await page.keyboard.press('Enter');
  await until(page, () => document.querySelector('form [role=status]').textContent === 'Written down.');
  await saved(page);
  const report = await opened(page, 'For the licensing authority');
  assert.deepEqual(await violations(report), []);
  await report.emulateMedia({ media: 'print' });
  const look = await report.evaluate(() => ({
    ground: getComputedStyle(document.body).backgroundColor, ink: getComputedStyle(document.body).color,
    strips: [...document.querySelectorAll('img.strip')].map((one) => (one.getBoundingClientRect().width / 96) * 25.4),
  }));
  assert.equal(look.ground, 'rgb(255, 255, 255)', 'light on paper, though the screen is dark');
  assert.equal(look.ink, 'rgb(31, 43, 40)');
  assert.ok(look.strips.length > 0);
  for (const mm of look.strips) assert.ok(mm >= 30, `${mm} mm`);
  const paper = await printed(report, 'authority');
  paper.forEach((one, i) => assert.match(one, new RegExp(`page ${i + 1} of ${paper.length}\\s*$`), `the number of page ${i + 1}`));
  for (const words of ['For the licensing authority', 'K. Moor', 'L-7', '12 trap nights', 'overcast, calm', 'bottle traps set at dusk', '52.12510° N', 'Every capture', 'Declared overrides', 'Signature', 'Sources of the methods'])
    assert.ok(paper.join('\n').includes(words), words);
  assert.ok(!paper[0].includes('withheld'), 'above the name of the pond it would be untrue');
  await page.context().close();
});

test('the version for everybody gives nothing away, on paper or under it', async () => {
  const page = await open(browser, served, 'KM');
  await visit(page, `report/2031-05-14/${encodeURIComponent('pond=north')}`);
  const report = await opened(page, 'For everybody');
  assert.deepEqual(await violations(report), []);
  const source = await report.content();
  for (const secret of ['Alder', 'north', '52.125', 'L-7', 'K. Moor', 'c17.jpg']) assert.ok(!source.includes(secret), secret);
  const paper = (await printed(report, 'everybody')).join('\n');
  assert.match(paper, /within the cell of 0\.1° round[\s\S]{0,90}52\.15° N, 1\.55° W/);
  await page.context().close();
});

test('a night without a catch has its report', async () => {
  const page = await open(browser, served, 'KM');
  await visit(page, 'report/2031-05-20');
  const report = await opened(page, 'For the licensing authority');
  assert.match((await printed(report, 'nothing')).join('\n'), /Nothing was caught: the place was worked/);
  await page.context().close();
});
