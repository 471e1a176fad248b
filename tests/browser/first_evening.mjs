// A first evening from nothing, as a surveyor does it who opens no terminal: a catalogue made, a card's photos dropped,
// the sheet filled in, the night taken in and settled, its report written. With every human step counted.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { onTable, ranked, shown, until } from './harness.mjs';
import { Steps } from './human_steps.mjs';

const evening = (page) => page.evaluate(async () => (await fetch('/api/evening')).json());
const measures = (i) => ({ sex: i % 2 ? 'm' : 'f', svl: String(62 + (7 * i) % 17) });

// `look(name)`: called where a picture of the page is worth having. Returns { steps, evening: as it was taken in,
// night: as /api/night has it before anything was settled, looks: captures that a person decided }.
export async function firstEvening(page, folder, { look = () => {} } = {}) {
  const files = readdirSync(folder).filter((name) => name.startsWith('IMG_')).sort().map((name) => join(folder, name));
  const steps = new Steps();
  const cell = (column, key = 'evening') => page.locator(`#cell-${key}-${column}`);
  // The whole evening's fields follow each other by Tab.
  const field = async (column, text) => {
    if (await page.evaluate((id) => document.activeElement?.id !== id, `cell-evening-${column}`)) await steps.click(cell(column));
    await steps.type(page, text);
    await steps.key(page, 'Tab', true);
    await steps.machine(() => until(page, async ([name, wanted]) => (await (await fetch('/api/evening')).json()).common[name].text === wanted, [column, text]));
  };

  steps.part('make the catalogue');
  await steps.click(page.locator('#new-title'));
  await steps.type(page, 'Alder Fen');
  await steps.key(page, 'Enter', true);
  await steps.machine(() => page.waitForSelector('#pick-photos', { state: 'attached' }));

  steps.part(`drop ${files.length} photos`);
  await steps.choose(page, page.locator('label', { hasText: 'Choose photos' }), files);
  await look('photos-on-their-way');
  await steps.machine(() => until(page, (n) => document.querySelector('.came')?.textContent.includes(`${n} photos came over`), files.length));
  const came = performance.now();

  steps.part('the sheet, while photos are looked at');
  await field('site', 'Alder Fen');
  await field('pond', 'north');
  await steps.key(page, 'Tab', true); // the night is right by the camera's clock
  await field('licence', 'L-2024-7');
  const { captures } = await evening(page);
  // What shows no animal is left out, as soon as the program says so.
  const [none] = (await evening(page)).photos.filter((one) => one.name === files.at(-1).split('/').at(-1));
  await steps.click(page.locator(`#shot-${none.id.slice(0, 16)}`));
  await steps.key(page, 'o');
  await steps.machine(() => until(page, async (id) => (await (await fetch('/api/evening')).json()).photos.find((one) => one.id === id).left_out, none.id));
  const left = (await evening(page)).captures;
  for (const [column, name] of [['sex', 'sex'], ['svl_mm', 'svl']]) {
    await steps.click(cell(column, left[0].key));
    if (column === 'sex') await page.keyboard.press('Escape'); // the list that the click opened; letters choose as well
    for (const i of left.keys()) {
      await steps.type(page, measures(i)[name], i > 0);
      await steps.key(page, 'Enter', true);
      if (i + 1 < left.length) await until(page, (id) => document.activeElement?.id === id, `cell-${left[i + 1].key}-${column}`);
    }
    await page.locator('h1').click();
    await until(page, async ([name, count]) => (await (await fetch('/api/evening')).json()).captures.filter((one) => one.cells[name]).length === count, [column, left.length]);
  }
  await steps.machine(() => until(page, (n) => document.querySelectorAll('.shot.good, .shot.bad').length >= n, files.length));
  const judged_s = (performance.now() - came) / 1000;
  await look('sheet');

  steps.part('take the night in');
  const before = await evening(page);
  await steps.click(page.locator('#take'));
  await steps.machine(() => page.waitForURL(/#\/(night\/|evening)/).then(() => until(page, async () => !(await (await fetch('/api/evening')).json()).taking.running)));
  await page.waitForURL(/#\/night\//);
  await shown(page);

  steps.part('settle');
  await steps.machine(() => ranked(page));
  await steps.machine(() => until(page, () => document.querySelector('.glance') && !document.querySelector('.why')?.textContent.includes('not ranked yet')));
  const night = await page.evaluate(async () => (await fetch('/api/night')).json());
  await look('night');
  if (await page.locator('button', { hasText: 'the program is sure of' }).count()) await steps.key(page, 'a');
  let looks = 0;
  for (;;) {
    await steps.machine(() => until(page, () => document.querySelector('.glance') && !document.querySelector('.waiting') && !document.querySelector('#saved[data-state=saving]')));
    const [open] = (await page.evaluate(async () => (await fetch('/api/night')).json())).queue;
    if (!open) break;
    if (!/#\/capture\//.test(page.url())) await steps.key(page, 'Enter');
    await until(page, () => location.hash.startsWith('#/capture/'));
    await shown(page);
    const id = page.url().split('/').at(-1);
    await steps.machine(() => onTable(page, id));
    if (looks === 0) await look('light-table');
    // Nobody was known before this evening: who is looked at is new.
    await steps.key(page, 'n');
    looks += 1;
    await steps.machine(() => until(page, async (capture) => !(await (await fetch('/api/night')).json()).queue.some((one) => one.capture === capture), id));
    await page.evaluate(() => { location.hash = '#/night'; });
    await shown(page, 'night');
  }
  await look('night-settled');

  steps.part('the report');
  await steps.click(page.locator('.afterwards a', { hasText: 'Report of the night' }));
  await steps.machine(() => shown(page));
  for (const [i, [key, text]] of [['method', 'bottle traps'], ['effort', '12'], ['effort_unit', 'trap nights'], ['weather', 'overcast, calm']].entries()) {
    if (i === 0) await steps.click(page.locator(`#fact-${key}`));
    await steps.type(page, text);
    await steps.key(page, 'Tab', true);
  }
  await steps.click(page.locator('#fact-holder'));
  await steps.type(page, 'K. Moor');
  await steps.key(page, 'Enter', true);
  await steps.machine(() => until(page, () => /Written down/.test(document.querySelector('.facts-form [role=status]').textContent)));
  await look('report-form');
  const opened = page.context().waitForEvent('page');
  await steps.click(page.locator('a', { hasText: 'For the licensing authority' }));
  const paper = await opened;
  await steps.machine(() => paper.waitForLoadState());
  await look('report', paper);
  return { steps, sheet: before, captures, night, looks, judged_s, paper, files };
}
