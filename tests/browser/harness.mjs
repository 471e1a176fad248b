// A pond of its own, the program serving it, and Debian's Chromium, for each test.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const program = process.env.EVET_PROGRAM, drawer = process.env.EVET_DRAW_POND;

export const launch = () => chromium.launch({ executablePath: process.env.EVET_CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox', '--disable-dev-shm-usage'] });

const freePort = () => new Promise((resolve) => {
  const probe = createServer().listen(0, '127.0.0.1', () => { const { port } = probe.address(); probe.close(() => resolve(port)); });
});

export class Served {
  static async draw(kind = 'night') {
    const served = new Served();
    served.folder = mkdtempSync(join(tmpdir(), 'evet-browser-'));
    served.pond = join(served.folder, 'pond');
    served.truth = JSON.parse(execFileSync(drawer, [served.pond, kind]));
    served.port = await freePort();
    await served.start();
    return served;
  }
  async start() {
    this.child = spawn(program, ['review', this.pond, '--port', String(this.port), '--second-share', '1', '--json'], { stdio: ['ignore', 'pipe', 'pipe'] });
    // A test that fails does not come to end(): nothing may be left running, nor be waited for.
    const { child } = this;
    process.once('exit', () => child.kill('SIGKILL'));
    for (const handle of [child, child.stdout, child.stderr]) handle.unref();
    this.url = await new Promise((resolve, reject) => {
      const waiting = setInterval(() => {}, 1000); // the program's first line is waited for all the same
      this.child.once('exit', () => clearInterval(waiting));
      this.child.stdout.once('data', () => clearInterval(waiting));
      let out = '', err = '';
      this.child.stdout.on('data', (data) => { out += data; if (out.includes('\n')) resolve(JSON.parse(out).url); });
      this.child.stderr.on('data', (data) => { err += data; });
      this.child.once('exit', () => reject(new Error(`the program ended: ${err}`)));
    });
  }
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
    rmSync(this.folder, { recursive: true, force: true });
  }
}

// A window that signs as `reader`, and remembers what went wrong in it.
export async function open(browser, served, reader, options = {}) {
  const context = options.context ?? await browser.newContext({ viewport: { width: 1280, height: 720 }, ...options });
  await context.addInitScript((code) => { if (!localStorage.getItem('evet.reader')) localStorage.setItem('evet.reader', code); }, reader);
  const page = await context.newPage();
  page.problems = [];
  page.on('console', (message) => { if (message.type() === 'error' && !/Failed to load resource|ERR_CONNECTION/.test(message.text())) page.problems.push(message.text()); });
  page.on('pageerror', (error) => page.problems.push(String(error)));
  page.on('request', (request) => { if (!/^(http:\/\/127\.0\.0\.1:|blob:|data:)/.test(request.url())) page.problems.push(`asked ${request.url()}`); });
  await page.goto(served.url);
  await page.waitForSelector('main h1');
  return page;
}

// Playwright's own waitForFunction evaluates text in the page, which the page's security policy forbids.
export async function until(page, holds, argument = null, limit_ms = 60000) {
  for (const end = Date.now() + limit_ms; ;) {
    if (await page.evaluate(holds, argument).catch(() => false)) return;
    if (Date.now() > end) throw new Error(`never came true: ${holds}; the page shows: ${(await page.locator('body').innerText()).slice(0, 600)}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
export const saved = (page) => until(page, () => document.getElementById('saved').dataset.state === 'saved');
export const ranked = (page) => until(page, () => document.querySelector('.glance') && !document.querySelector('.waiting'));
export const heading = (page) => page.locator('main h1').first().innerText();
export const captureShown = (page) => page.evaluate(() => location.hash.split('/')[2]);
