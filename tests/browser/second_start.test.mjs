// The launcher pressed twice: one program, and a second window of the same page.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';

const start = (home) => {
  const child = spawn(process.env.EVET_PROGRAM, ['review', '--no-browser'], { stdio: ['ignore', 'pipe', 'pipe'], env: { ...process.env, EVET_HOME: home } });
  process.once('exit', () => child.kill('SIGKILL'));
  child.said = '';
  child.stderr.on('data', (data) => { child.said += data; });
  child.ended = new Promise((resolve) => { child.once('exit', resolve); });
  child.address = new Promise((resolve) => { child.stdout.once('data', (data) => resolve(String(data).trim())); });
  return child;
};

test('a second start opens the page that is served already', async () => {
  const home = mkdtempSync(join(tmpdir(), 'evet-twice-'));
  const first = start(home);
  const address = await first.address;
  const second = start(home);
  const window = await second.address;
  assert.equal(await second.ended, 0, 'it ends by itself');
  assert.match(second.said, /served already/);
  assert.equal(new URL(window).port, new URL(address).port);
  const entered = await fetch(window, { redirect: 'manual' });
  assert.equal(entered.status, 303);
  const cookie = entered.headers.get('set-cookie').split(';')[0];
  assert.equal((await (await fetch(`${new URL(address).origin}/api/hello`, { headers: { cookie } })).json()).none, true);

  // Killed, its note leads nowhere: the next start serves.
  first.kill('SIGKILL');
  await first.ended;
  const third = start(home);
  assert.match(await third.address, /\?t=/);
  assert.doesNotMatch(third.said, /served already/);
  third.kill('SIGTERM');
  assert.equal(await third.ended, 0);
  rmSync(home, { recursive: true, force: true });
});
