// The first evening whole, with fewer and smaller photos than tools/bench.sh evening: every step of it by hand, axe on
// each page, and no more steps than a person has time for.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { firstEvening } from './first_evening.mjs';
import { launch, open, Served, shown, violations, visit } from './harness.mjs';

const shots = process.env.EVET_SCREENSHOTS, PHOTOS = 8;
let browser, folder, drawn;
before(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evet-evening-'));
  drawn = JSON.parse(execFileSync(process.env.EVET_DRAW_EVENING, [folder, '--photos', String(PHOTOS), '--width', '1600', '--height', '1200', '--heic', '4'], { encoding: 'utf8' }));
  browser = await launch();
  if (shots) mkdirSync(shots, { recursive: true });
});
after(async () => { await browser.close(); rmSync(folder, { recursive: true, force: true }); });

test('from nothing to the report, in steps that a tired person can count', async () => {
  const served = await Served.draw('none');
  const page = await open(browser, served, 'KM');
  const found = [];
  const look = async (name, other = page) => {
    if (name !== 'photos-on-their-way') for (const one of await violations(other)) found.push(`${name}: ${one}`);
    const wide = await other.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    if (wide > 1) found.push(`${name}: ${wide} px wider than the screen`);
    const head = await other.evaluate(() => document.querySelector('header nav')?.parentElement.offsetHeight ?? 0);
    if (head > 50) found.push(`${name}: the header takes ${head} px, more than one line`);
    if (shots) await other.screenshot({ path: join(shots, `first-${name}.png`), fullPage: true });
  };
  const done = await firstEvening(page, folder, { look });
  assert.deepEqual(found, []);

  // The camera's clock gathers what was photographed together, from JPEG and HEIC alike.
  assert.ok(done.files.some((name) => name.endsWith('.HEIC')));
  const together = done.captures.map((one) => [...one.photos].sort().join(' ')).sort();
  const wanted = [...new Set(drawn.map((one) => one.animal))].map((animal) => drawn.filter((one) => one.animal === animal).map((one) => one.photo).sort().join(' ')).sort();
  assert.deepEqual(together, wanted);
  assert.ok(done.sheet.photos.filter((one) => !one.left_out).every((one) => one.usable), 'every photo of an animal can be matched');
  assert.equal(done.sheet.check.faults.length, 0);

  const words = await done.paper.locator('body').innerText();
  for (const one of ['12 trap nights', 'bottle traps', 'overcast, calm', 'K. Moor', 'L-2024-7', 'Every capture']) assert.ok(words.includes(one), one);
  await done.paper.close();
  await page.bringToFront();
  const { steps, human_s: seconds } = done.steps.whole;
  assert.ok(steps < 100, `${steps} steps`);
  assert.ok(seconds < 300, `${seconds} s of a person`);

  // The same pages where there is more room and less, in the light.
  await page.evaluate(() => localStorage.setItem('evet.theme', 'light'));
  for (const [width, height] of [[1920, 1080], [390, 844]]) {
    await page.setViewportSize({ width, height });
    await page.reload();
    await shown(page);
    for (const path of ['start', 'evening', 'night', 'report/2024-05-14']) {
      await visit(page, path);
      for (const one of await violations(page)) found.push(`${path} ${width}: ${one}`);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (wide > 1) found.push(`${path} ${width}: ${wide} px wider than the screen`);
      if (shots) await page.screenshot({ path: join(shots, `first-${path.replaceAll('/', '-')}-${width}-light.png`) });
    }
  }
  assert.deepEqual(found, []);
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});
