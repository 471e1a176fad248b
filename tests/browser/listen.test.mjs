// Two readers on a shared page, each at a browser of their own: the passphrase opens it, and neither writes over the
// other. The second loopback address stands in for a home network.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { judged, launch, onTable, open, Served, shown, until, violations, visit } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

test('without a passphrase nothing is shared', async () => {
  await assert.rejects(Served.draw('night', { listen: '127.0.0.2' }), /no passphrase keeps them out/);
});

test('two readers on two browsers settle one night', async () => {
  const served = await Served.draw('night', { listen: '127.0.0.2', passphrase: 'wet hands, clean gloves' });
  await served.warns(/Warning: whoever is on this network/);
  const host = await open(browser, served, 'KM'); // by the printed address
  const context = await browser.newContext();
  await context.addInitScript(() => localStorage.setItem('evet.reader', 'TR'));
  const guest = await context.newPage();
  await guest.goto(served.url.split('?')[0]);
  await guest.waitForSelector('#passphrase');
  assert.deepEqual(await violations(guest), []);
  await guest.locator('#passphrase').fill('dry hands');
  await guest.keyboard.press('Enter');
  await until(guest, () => /not the passphrase/.test(document.getElementById('answer').textContent));
  await guest.locator('#passphrase').fill('wet hands, clean gloves');
  await guest.keyboard.press('Enter');
  await until(guest, () => document.getElementById('page')?.dataset.shown);

  const [first, second] = served.truth.fresh;
  for (const [page, reader] of [[host, 'KM'], [guest, 'TR']]) {
    assert.match(await page.locator('#reader').innerText(), new RegExp(reader));
    await visit(page, `capture/${first}`);
    await onTable(page, first);
  }
  await Promise.all([host.keyboard.press('n'), guest.keyboard.press('n')]);
  await Promise.all([judged(host, 'KM', 1), judged(guest, 'TR', 1)]);
  await visit(guest, `capture/${second}`);
  await onTable(guest, second);
  await guest.keyboard.press('n');
  await judged(guest, 'TR', 2);
  const said = (await served.ledger(host, 'verdict')).filter((entry) => entry.actor !== 'OB1').map((entry) => `${entry.actor} ${entry.what.capture}`);
  assert.deepEqual(said.sort(), [`KM ${first}`, `TR ${first}`, `TR ${second}`].sort());
  // Seen at the machine; and a browser that knows the passphrase does not become TR without a yes.
  await until(host, () => /TR writes from 127\.0\.0\.\d+ now/.test(document.querySelector('.guests').innerText));
  assert.deepEqual(await violations(host), []);
  await host.locator('.guests button', { hasText: 'I know' }).click();
  const other = await browser.newContext();
  await other.addInitScript(() => localStorage.setItem('evet.reader', 'TR'));
  const third = await other.newPage();
  await third.goto(served.url.split('?')[0]);
  await third.locator('#passphrase').fill('wet hands, clean gloves');
  await third.keyboard.press('Enter');
  await until(third, () => document.querySelector('h1')?.textContent === 'Waiting for a yes');
  assert.deepEqual(await violations(third), []);
  await until(host, () => /wants to read on as TR/.test(document.querySelector('.guests').innerText));
  await host.locator('.guests button', { hasText: 'It is TR' }).click();
  await until(third, () => document.querySelector('.glance'));
  await guest.reload();
  await until(guest, () => document.querySelector('h1')?.textContent === 'Waiting for a yes');
  await until(host, () => /wants to read on as TR/.test(document.querySelector('.guests').innerText));
  await host.locator('.guests button', { hasText: 'It is not' }).click();
  await until(guest, () => document.querySelector('h1')?.textContent === 'Sign with another code');
  await visit(host, 'settings');
  assert.match(await host.locator('main').innerText(), /TR at 127\.0\.0\.\d+: sent away/);
  await other.close();
  await host.context().close();
  await context.close();
  await served.end();
});
