// A first evening by somebody who opens no terminal: a catalogue made, photos dropped, parted and joined by mouse and
// by keyboard, the sheet written, faults mended in their cells, the night taken in; with a reload and a killed program
// on the way, and a phone at the tray.
import assert from 'node:assert/strict';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { launch, open, Served, shown, until, violations, visit } from './harness.mjs';

const photos = join(import.meta.dirname, '..', 'data', 'night', 'photos');
const first = ['A0000-0.jpg', 'A0001-0.jpg', 'A0002-0.jpg', 'tray.jpg'].map((name) => join(photos, name));
const shots = process.env.EVET_SCREENSHOTS;
let browser;
before(async () => {
  browser = await launch();
  if (shots) mkdirSync(shots, { recursive: true });
});
after(() => browser.close());

// Until the program itself says so of the evening.
const evening = (page) => page.evaluate(async () => (await fetch('/api/evening')).json());
const holds = (page, what) => until(page, what);
const judged = (page, count) => until(page, (n) => document.querySelectorAll('.shot.good, .shot.bad').length >= n, count);
const drawnCaptures = (page, count) => until(page, (n) => document.querySelectorAll('tr[data-capture]').length === n, count);

async function check(page, name, found) {
  for (const one of await violations(page)) found.push(`${name}: ${one}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  if (wide > 1) found.push(`${name}: ${wide} px wider than the screen`);
  if (shots) await page.screenshot({ path: `${shots}/${name}.png`, fullPage: true });
}

async function makeCatalogue(page, title) {
  await page.locator('#new-title').fill(title);
  await page.keyboard.press('Enter');
  await page.waitForURL(/#\/evening$/);
  await page.waitForSelector('#pick-photos', { state: 'attached' });
}

// As a hand does it: pressed, drawn away a little, and over to where it is let go.
async function drag(page, from, to) {
  const [a, b] = [await from.boundingBox(), await to.boundingBox()];
  await page.mouse.move(a.x + 40, a.y + 40);
  await page.mouse.down();
  await page.mouse.move(a.x + 55, a.y + 55, { steps: 4 });
  await page.mouse.move(b.x + 50, b.y + 15, { steps: 8 });
  await page.mouse.up();
}

async function write(page, column, text, capture = 'evening') {
  await page.locator(`#cell-${capture}-${column}`).fill(text);
  await page.keyboard.press('Tab');
  await until(page, async ([key, name, wanted]) => {
    const { common, captures } = await (await fetch('/api/evening')).json();
    return (key === 'evening' ? common[name].text : captures.find((one) => one.key === key).cells[name]) === wanted;
  }, [capture, column, text]);
}

test('a first evening from nothing to the night page', async () => {
  const served = await Served.draw('none');
  const page = await open(browser, served, 'KM');
  const found = [];
  assert.match(await page.locator('main').innerText(), /None is known here yet/);
  await check(page, 'start-1280-dark', found);
  await makeCatalogue(page, 'Alder Fen');
  await check(page, 'evening-empty-1280-dark', found);

  await page.locator('#pick-photos').setInputFiles(first);
  await judged(page, 4);
  assert.match(await page.locator('.came').innerText(), /4 photos came over/);
  assert.match(await page.locator('#judged').innerText(), /4 photos/);
  assert.equal(await page.locator('.shot.bad').count(), 1, 'the empty tray');

  // Rendered photos of one sitting lie close in time: parted by hand, one by key and one by mouse.
  const keyed = page.locator('.shot[aria-label^="A0001-0.jpg"]');
  await keyed.focus();
  await page.keyboard.press('Space');
  await until(page, () => document.querySelector('.shot[aria-pressed=true]'));
  await page.keyboard.press('x');
  await until(page, () => [...document.querySelectorAll('tr[data-capture]')].some((row) => row.querySelectorAll('.shot').length === 1 && row.querySelector('[aria-label^="A0001-0"]')));
  await page.setViewportSize({ width: 1280, height: 1500 }); // both ends of the way in sight
  await drag(page, page.locator('.shot[aria-label^="A0002-0.jpg"]'), page.locator('.apart'));
  await drawnCaptures(page, 4);
  // And together again with another row, and back.
  const rowOf = (name) => page.locator('tr[data-capture]', { has: page.locator(`.shot[aria-label^="${name}"]`) });
  await drag(page, page.locator('.shot[aria-label^="A0002-0.jpg"]'), rowOf('A0001-0'));
  await drawnCaptures(page, 3);
  await page.locator('.shot[aria-label^="A0002-0.jpg"]').click();
  await page.locator('#chosen-apart').click();
  await drawnCaptures(page, 4);

  await page.setViewportSize({ width: 1280, height: 720 });

  // What is missing is told at the cell, once.
  assert.equal(await page.locator('#cell-evening-site').getAttribute('aria-invalid'), 'true');
  assert.equal(await page.locator('.whole .fault').count(), 2, 'site and licence');
  assert.equal(await page.locator('#take').isDisabled(), true);
  await check(page, 'evening-faults-1280-dark', found);
  await write(page, 'site', 'Alder Fen');
  await write(page, 'licence', 'L-7');
  await write(page, 'night', '2024-05-14');
  const [capture] = (await evening(page)).captures;
  await write(page, 'svl_mm', '7 cm', capture.key);
  await holds(page, () => /not a number/.test(document.querySelector('tr[data-capture] .fault')?.textContent));
  await write(page, 'svl_mm', '71', capture.key);
  await page.locator(`#cell-${capture.key}-sex`).selectOption('female');
  await holds(page, () => !document.querySelector('.fault:not(p)') && document.querySelector('#take')?.disabled === false);

  // Reloaded in the middle: everything is there, and what is dropped again is not sent again.
  await page.reload();
  await drawnCaptures(page, 4);
  assert.equal(await page.locator(`#cell-${capture.key}-svl_mm`).inputValue(), '71');
  await page.locator('#pick-photos').setInputFiles(first);
  await until(page, () => /4 photos were here already/.test(document.querySelector('.came').textContent));
  await page.locator('#pick-photos').setInputFiles([join(photos, '..', 'README.md')]);
  await until(page, () => /only JPEG, PNG, TIFF and HEIC/.test(document.querySelector('.came').textContent));
  await check(page, 'evening-1280-dark', found);
  await page.evaluate(() => localStorage.setItem('evet.theme', 'light'));
  await page.reload();
  await drawnCaptures(page, 4);
  await judged(page, 4);
  await check(page, 'evening-1280-light', found);

  await page.locator('#take').click();
  await page.waitForURL(/#\/night\/2024-05-14$/);
  await shown(page, 'night/2024-05-14');
  assert.match(await page.locator('main').innerText(), /Night of 14 May 2024/);
  assert.match(await page.locator('.glance').innerText(), /4 captures on the sheet, 4 photos, 1 of them not usable/);
  await visit(page, 'evening');
  assert.match(await page.locator('.outcome').innerText(), /4 captures with 4 photos of 2024-05-14/);
  await visit(page, 'start');
  assert.match(await page.locator('.catalogues').innerText(), /Alder Fen[\s\S]*last night 14 May 2024/);
  await check(page, 'start-1280-light', found);
  assert.deepEqual(found, []);
  assert.deepEqual(page.problems, []);
  await page.context().close();
  await served.end();
});

test('a killed program: plain words, and the evening goes on where it stood', async () => {
  const served = await Served.draw('none');
  const page = await open(browser, served, 'KM');
  await makeCatalogue(page, 'Alder Fen');
  await page.locator('#pick-photos').setInputFiles(first.slice(0, 1));
  await judged(page, 1);
  await served.kill();
  await page.locator('#pick-photos').setInputFiles(first.slice(1, 2));
  await until(page, () => /does not answer/.test(document.querySelector('.came').textContent));
  await page.evaluate(() => { location.hash = '#/population'; });
  await until(page, () => document.querySelector('main [role=alert]'));
  const words = await page.locator('main').innerText();
  assert.doesNotMatch(words, /dynamically|module|fetch/i);
  assert.match(words, /does not answer/);
  await served.start();
  await page.goto(served.url);
  await shown(page);
  await page.locator('.catalogues button').click();
  await drawnCaptures(page, 1);
  await page.context().close();
  await served.end();
});

test('a phone at the tray, and the sheet on its small screen', async () => {
  const served = await Served.draw('none', { listen: '127.0.0.2', passphrase: 'wet hands, clean gloves' });
  const host = await open(browser, served, 'KM');
  await makeCatalogue(host, 'Alder Fen');
  await host.locator('#pick-photos').setInputFiles(first.slice(0, 1));
  await judged(host, 1);
  await write(host, 'site', 'Alder Fen');
  await write(host, 'licence', 'L-7');
  await write(host, 'night', '2024-05-01');
  await holds(host, () => document.querySelector('#take')?.disabled === false);
  await host.locator('#take').click();
  await host.waitForURL(/#\/night\//);
  await host.evaluate(async () => {
    const hello = await (await fetch('/api/hello')).json();
    const night = await (await fetch('/api/night')).json();
    const ids = night.queue.map((one) => one.capture);
    await fetch('/api/verdict', { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Evet-Guard': hello.write_key, 'X-Evet-Reader': 'KM' },
      body: JSON.stringify({ capture: ids[0], answer: 'new', after: hello.position }) });
  });

  // A phone that was never here: the door, the observer's code, the tray.
  const found = [];
  const small = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
  const door = served.url.split('?')[0];
  let context = await browser.newContext(small);
  let phone = await context.newPage();
  await phone.goto(door);
  await check(phone, 'door-390', found);
  await phone.locator('#passphrase').fill('wet hands, clean gloves');
  await phone.keyboard.press('Enter');
  await phone.locator('#code').fill('TR');
  await phone.keyboard.press('Enter');
  await shown(phone);
  for (const theme of ['dark', 'light']) {
    await phone.evaluate((colours) => localStorage.setItem('evet.theme', colours), theme);
    if (theme === 'light') {
      // The browser of a phone that was put away begins again: what it kept opens the door, and TR reads on.
      const { cookies, origins } = await context.storageState();
      await context.close();
      context = await browser.newContext({ ...small, storageState: { cookies: cookies.filter((one) => one.expires > 0), origins } });
      phone = await context.newPage();
      await phone.goto(door);
      await shown(phone);
    }
    assert.match(await phone.locator('#reader').innerText(), /TR/);
    await visit(phone, 'tray');
    if (theme === 'dark') {
      await phone.locator('#shoot').setInputFiles([join(photos, 'A0000-1.jpg')]);
      await until(phone, () => /Can be matched/.test(document.querySelector('.tray-card')?.textContent) && /Probably/.test(document.querySelector('.likely')?.textContent));
      await phone.locator('#shoot').setInputFiles([join(photos, 'tray.jpg')]);
      await until(phone, () => /Cannot be matched/.test(document.querySelector('.tray-card')?.textContent));
    }
    await until(phone, () => document.querySelectorAll('.tray-card img').length === 2);
    assert.match(await phone.locator('.tray-list').innerText(), /Probably .*9\d(\.\d)? %/);
    await check(phone, `tray-390-${theme}`, found);
    await visit(phone, 'evening');
    await judged(phone, 2);
    await check(phone, `evening-390-${theme}`, found);
    await visit(phone, 'start');
    await check(phone, `start-390-${theme}`, found);
  }
  // Another phone under the same code is told so, and goes on under its own.
  const second = await browser.newContext({ ...small });
  await second.addInitScript(() => { if (!localStorage.getItem('evet.reader')) localStorage.setItem('evet.reader', 'TR'); });
  const other = await second.newPage();
  await other.goto(door);
  await other.locator('#passphrase').fill('wet hands, clean gloves');
  await other.keyboard.press('Enter');
  await until(other, () => /another browser has read under that code/.test(document.querySelector('main [role=alert]')?.textContent));
  await check(other, 'code-taken-390', found);
  await other.locator('main button', { hasText: 'Change the observer code' }).click();
  await other.locator('#code').fill('LL');
  await other.keyboard.press('Enter');
  await shown(other);
  await second.close();

  // The program is ended and begun again while an animal lies in the tray: its photo waits, the passphrase is asked
  // for on the page that stands there, and the photo arrives once the catalogue is open.
  await visit(phone, 'tray');
  await served.kill();
  await phone.locator('#shoot').setInputFiles([join(photos, 'A0001-0.jpg')]);
  await until(phone, () => /does not answer/.test(document.querySelector('.view [role=status]')?.textContent));
  await served.start();
  await phone.locator('#passphrase-again').fill('dry hands');
  await phone.keyboard.press('Enter');
  await until(phone, () => /not the passphrase/.test(document.querySelector('dialog [role=alert]')?.textContent));
  await check(phone, 'enter-again-390', found);
  await phone.locator('#passphrase-again').fill('wet hands, clean gloves');
  await phone.keyboard.press('Enter');
  await host.goto(served.url);
  await shown(host);
  await host.locator('.catalogues button').click();
  await until(phone, () => document.querySelectorAll('.tray-card').length === 3);
  await context.close();
  assert.deepEqual(found, []);
  // The laptop has what the phone photographed.
  await visit(host, 'evening');
  await judged(host, 3);
  await host.context().close();
  await served.end();
});
