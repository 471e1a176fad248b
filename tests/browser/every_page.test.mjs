// Every page of the program, at three sizes and in both themes: axe at WCAG 2.2 AA and by good practice, nothing wider
// than the screen, nothing asked from elsewhere; and a picture of each, to be looked at (EVET_SCREENSHOTS=folder).
import assert from 'node:assert/strict';
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { laid, launch, onTable, open, ranked, Served, shown, until, violations, visit } from './harness.mjs';

const photos = join(import.meta.dirname, '..', 'data', 'night', 'photos');
const script = join(import.meta.dirname, '..', '..', 'tools', 'review', 'page', 'app.js');
const shots = process.env.EVET_SCREENSHOTS;
let browser, served;
before(async () => {
  browser = await launch();
  served = await Served.draw('everything');
  if (shots) mkdirSync(shots, { recursive: true });
  const page = await open(browser, served, 'TR');
  await visit(page, 'evening');
  await page.locator('#pick-photos').setInputFiles(['A0000-0.jpg', 'A0001-0.jpg', 'A0002-0.jpg', 'tray.jpg'].map((name) => join(photos, name)));
  await until(page, () => document.querySelectorAll('.shot.good, .shot.bad').length === 4);
  await until(page, async () => (await (await fetch('/api/evening')).json()).photos.every((one) => !one.looking));
  served.photo = await page.evaluate(async (id) => (await (await fetch(`/api/capture/${id}`)).json()).photos[0].photo, served.truth.fresh[0]);
  await page.context().close();
});
after(async () => { await browser.close(); await served.end(); });

// Where a capture has to be chosen first.
const NO_COMMAND = new Set(['pair-none']);
const q = (query) => encodeURIComponent(query);
const pages = () => {
  const { captures, fresh, unusable } = served.truth;
  return {
    start: 'start', evening: 'evening', tray: 'tray', night: 'night', 'night-settled': 'night/2026-04-03', capture: `capture/${fresh[0]}`, 'capture-settled': `capture/${captures[1][1]}`,
    'capture-unusable': `capture/${unusable[0]}`, midline: `midline/${fresh[0]}/${served.photo}`, pair: `pair/${captures[1][0]}/${captures[2][0]}`, 'pair-none': 'pair', second: 'second', disputes: 'disputes',
    individuals: 'individuals', found: `individuals/${q('sex=female&season=2026')}`, individual: `individual/${captures[3][0]}`, strips: 'strips', growth: 'growth',
    population: 'population', plan: 'plan', 'plan-made': `plan/${q('animals=80&chance=0.2&nights=3-5&traps_now=12&traps=12,24&wanted=0.2&asked=yes')}`, calendar: 'calendar', 'calendar-2026': `calendar/${q('year=2026')}`, map: 'map', ledger: 'ledger', report: 'report/2031-05-14', settings: 'settings',
  };
};

// The page with everything in it that comes by itself.
const DRAWN = {
  night: ranked, 'night-settled': ranked, pair: laid, disputes: laid,
  capture: async (page, path) => { await onTable(page, path.split('/')[1]); await laid(page); },
  'capture-settled': (page, path) => onTable(page, path.split('/')[1]),
  second: (page) => until(page, () => document.querySelector('.table canvas, .done')),
  population: (page) => until(page, () => document.querySelectorAll('.plot svg').length >= 3 && /drawn \d+ times|second figure/.test(document.querySelector('main').innerText)),
  individual: (page) => page.waitForSelector('.plot svg'), growth: (page) => page.waitForSelector('.plot svg'),
};
async function drawn(page, name, path) {
  await visit(page, path);
  await DRAWN[name]?.(page, path);
  await until(page, () => !document.querySelector('.waiting') && [...document.images].every((one) => one.complete || one.loading === 'lazy'));
}

test('no page is left out', () => {
  const [, table] = /const pages = \{([\s\S]*?)\};/.exec(readFileSync(script, 'utf8'));
  const known = [...table.matchAll(/^ {2}(\w+):/gm)].map(([, name]) => name);
  const seen = new Set(Object.values(pages()).map((path) => path.split('/')[0]));
  assert.ok(known.length > 15);
  assert.deepEqual(known.filter((name) => !seen.has(name)), []);
});

for (const [width, height] of [[1280, 720], [1920, 1080], [390, 844]]) {
  for (const theme of ['dark', 'light']) {
    test(`no violation at ${width} x ${height}, ${theme}`, async () => {
      const page = await open(browser, served, 'TR', { viewport: { width, height }, reducedMotion: 'reduce' });
      await page.evaluate((wanted) => localStorage.setItem('evet.theme', wanted), theme);
      await page.reload();
      await shown(page);
      const found = [];
      for (const [name, path] of Object.entries(pages())) {
        await drawn(page, name, path);
        for (const one of await violations(page)) found.push(`${name}: ${one}`);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        if (wide > 1) found.push(`${name}: ${wide} px wider than the screen`);
        // A rule meant for something else of the same class takes a cell out of its row.
        if (width > 760 && await page.evaluate(() => [...document.querySelectorAll('td')].some((cell) => getComputedStyle(cell).display !== 'table-cell'))) found.push(`${name}: a cell is none`);
        if (!NO_COMMAND.has(name) && !await page.locator('details.command').count()) found.push(`${name}: names no command`);
        if (shots) await page.screenshot({ path: `${shots}/${name}-${width}-${theme}.png`, fullPage: true });
      }
      assert.deepEqual(found, []);
      assert.deepEqual(page.problems, []);
      await page.context().close();
    });
  }
}
