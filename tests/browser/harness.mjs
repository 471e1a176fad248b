// A pond of its own, the program serving it, and Debian's Chromium, for each test.
//
// Nothing here waits for a time: every wait is for a state that the page or the program shows, and the limits are
// there to end a test that hangs, so generous that a machine under load does not reach them.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const program = process.env.EVET_PROGRAM, drawer = process.env.EVET_DRAW_POND;
const LIMIT_MS = Number(process.env.EVET_BROWSER_LIMIT_MS ?? 240_000);

export const launch = () => chromium.launch({ executablePath: process.env.EVET_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-dev-shm-usage'], timeout: LIMIT_MS });

// A port that stays ours while the program is killed and started again. It lies below those that the machine gives to
// outgoing connections, and the same number is held on a neighbouring loopback address, where other tests ask first.
const heldPort = () => new Promise((resolve) => {
  const port = 10_240 + Math.floor(Math.random() * 20_000);
  const holder = createServer().listen(port, '127.0.0.3', () => resolve({ port, holder }));
  holder.unref();
  holder.once('error', () => resolve(heldPort()));
});

export class Served {
  static async draw(kind = 'night', { listen, passphrase } = {}) {
    const served = new Served();
    served.folder = mkdtempSync(join(tmpdir(), 'evet-browser-'));
    served.more = listen ? ['--listen', listen] : [];
    if (passphrase) {
      writeFileSync(join(served.folder, 'passphrase'), `${passphrase}\n`);
      served.more.push('--passphrase-file', join(served.folder, 'passphrase'));
    }
    served.pond = join(served.folder, 'pond');
    served.home = join(served.folder, 'home');
    // 'none': the program knows of no catalogue yet.
    if (kind !== 'none') served.truth = JSON.parse(execFileSync(drawer, [served.pond, kind]));
    for (;;) {
      Object.assign(served, await heldPort());
      const failed = await served.start().then(() => null, (error) => error);
      if (!failed) return served;
      served.holder.close();
      if (/it is taken/.test(failed.message)) continue; // by a program that knows nothing of these tests
      rmSync(served.folder, { recursive: true, force: true });
      throw failed;
    }
  }
  async start() {
    const catalogue = this.truth ? [this.pond] : [];
    this.child = spawn(program, ['review', ...catalogue, '--port', String(this.port), '--second-share', '1', '--json', ...this.more],
      { stdio: ['ignore', 'pipe', 'pipe'], env: { ...process.env, EVET_HOME: this.home, EVET_KEYS: join(this.folder, 'keys') } });
    // A test that fails does not come to end(): nothing may be left running, nor be waited for.
    const { child } = this;
    process.once('exit', () => child.kill('SIGKILL'));
    for (const handle of [child, child.stdout, child.stderr]) handle.unref();
    this.url = await new Promise((resolve, reject) => {
      const waiting = setInterval(() => {}, 1000); // the program's first line is waited for all the same
      this.child.once('exit', () => clearInterval(waiting));
      this.child.stdout.once('data', () => clearInterval(waiting));
      let out = '', err = '';
      const answered = (said) => (said.url ? resolve(said.url) : reject(new Error(JSON.stringify(said))));
      this.warns = async (words) => {
        for (const end = Date.now() + LIMIT_MS; !words.test(err); await new Promise((next) => setTimeout(next, 50)))
          if (Date.now() > end) throw new Error(`not warned of: ${err}`);
      };
      this.child.stdout.on('data', (data) => { out += data; if (out.includes('\n')) answered(JSON.parse(out)); });
      this.child.stderr.on('data', (data) => { err += data; });
      this.child.once('close', () => reject(new Error(`the program ended: ${err}`)));
    });
  }
  // As when a lid is closed: nothing answers until it is opened.
  async pause() {
    this.child.kill('SIGSTOP');
    while (!/^State:\s+T/m.test(readFileSync(`/proc/${this.child.pid}/status`, 'utf8'))) await new Promise((next) => { setTimeout(next, 10); });
  }
  resume() { this.child.kill('SIGCONT'); }
  async kill() {
    const ended = new Promise((resolve) => this.child.once('exit', resolve));
    this.child.kill('SIGKILL');
    await ended;
  }
  // The ledger's entries of a kind, asked of the program itself.
  async ledger(page, kind) {
    return page.evaluate(async (wanted) => (await (await fetch(`/api/ledger?kind=${wanted}`)).json()).entries, kind);
  }
  async end() {
    if (this.child.exitCode === null && this.child.signalCode === null) await this.kill();
    this.holder.close();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

// A window that signs as `reader`, and remembers what went wrong in it.
export async function open(browser, served, reader, options = {}) {
  const context = options.context ?? await browser.newContext({ viewport: { width: 1280, height: 720 }, ...options });
  context.setDefaultTimeout(LIMIT_MS);
  await context.addInitScript((code) => { if (!localStorage.getItem('evet.reader')) localStorage.setItem('evet.reader', code); }, reader);
  const page = await context.newPage();
  page.problems = [];
  page.on('console', (message) => { if (message.type() === 'error' && !/Failed to load resource|ERR_CONNECTION/.test(message.text())) page.problems.push(message.text()); });
  page.on('pageerror', (error) => page.problems.push(String(error)));
  page.on('request', (request) => { if (!/^(http:\/\/127\.0\.0\.[12]:|blob:|data:)/.test(request.url())) page.problems.push(`asked ${request.url()}`); });
  await page.goto(served.url);
  await shown(page);
  return page;
}

// Playwright's own waitForFunction evaluates text in the page, which the page's security policy forbids.
export async function until(page, holds, argument = null) {
  for (const end = Date.now() + LIMIT_MS; ;) {
    if (await page.evaluate(holds, argument).catch(() => false)) return;
    if (Date.now() > end) throw new Error(`never came true: ${holds} with ${JSON.stringify(argument)}; the page shows: ${(await page.locator('body').innerText()).slice(0, 600)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

// The page that the address names is drawn: until then the last one still stands there, and takes no keys.
export const shown = (page, path = '') => until(page, (wanted) => {
  const { shown: drawn } = document.getElementById('page').dataset;
  return drawn === (location.hash || '#/night') && (!wanted || drawn === `#/${wanted}`);
}, path);
export async function visit(page, path) {
  await page.evaluate((to) => { location.hash = `#/${to}`; }, path);
  await shown(page, path);
}
// Does what draws the same page anew, and waits for the new drawing.
export async function redrawn(page, act) {
  const old = await page.$('main > .view');
  await act();
  await until(page, (node) => !node.isConnected && document.getElementById('page').dataset.shown === (location.hash || '#/night'), old);
}
// What was said so far is on the disk; the page shows otherwise from the moment that something is said.
export const saved = (page) => until(page, () => document.getElementById('saved').dataset.state === 'saved');
export const ranked = (page) => until(page, () => document.querySelector('.glance') && !document.querySelector('.waiting'));
// Both strips lie on the light table, and their ties are drawn: nothing more changes by itself.
export const laid = (page) => until(page, () => /\d+ spots? tied/.test(document.querySelector('.table .told')?.textContent));
export const captureShown = (page) => page.evaluate(() => document.getElementById('page').dataset.shown.split('/')[2]);
// The capture's candidates are there, and so is what can be undone.
export const onTable = (page, id) => shown(page, `capture/${id}`).then(() => until(page, () => document.querySelector('.candidates, .side [role=status]')?.matches('.candidates')));
export const verdictsOf = async (served, page, reader) => (await served.ledger(page, 'verdict')).filter((entry) => entry.actor === reader);
// Until the ledger itself has so many verdicts of the reader.
export async function judged(page, reader, count) {
  await until(page, async ([who, wanted]) => {
    const { entries } = await (await fetch('/api/ledger?kind=verdict')).json();
    return entries.filter((entry) => entry.actor === who).length >= wanted;
  }, [reader, count]);
}

const axe = createRequire(import.meta.url)('axe-core').source;
// What axe finds on the page as it stands, at WCAG 2.2 AA and by good practice.
export async function violations(page) {
  await page.evaluate(axe);
  const result = await page.evaluate(() => window.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
  return result.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120)).join(' | ')}`);
}
