// The page speaks another language: with a made-up one, in which every text is itself in guillemets, every page is
// opened, and nothing that people read on it stands outside of them. The same as in tests/tools/evet/pseudo_language.h.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';

const pot = join(import.meta.dirname, '..', '..', 'tools', 'messages', 'evet.pot');
let folder, browser, served, harness;

// Each entry of the template with itself in guillemets as its translation.
function translated(template) {
  const quoted = (lines) => [...lines.matchAll(/"((?:[^"\\]|\\.)*)"/g)].map(([, text]) => text).join('');
  const entries = template.split('\n\n').slice(1).map((entry) => {
    const [, one, many] = /^msgid ((?:".*"\n?)+)(?:msgid_plural ((?:".*"\n?)+))?msgstr/m.exec(entry) ?? [];
    if (!one) return '';
    // Line ends before and after stay outside: msgfmt wants those as they are in English.
    const so = (lines) => quoted(lines).replace(/^((?:\\n)*)(.*?)((?:\\n)*)$/, '"$1«$2»$3"');
    return `msgid "${quoted(one)}"\n${many ? `msgid_plural "${quoted(many)}"\nmsgstr[0] ${so(one)}\nmsgstr[1] ${so(many)}` : `msgstr ${so(one)}`}\n`;
  });
  return `msgid ""\nmsgstr "Content-Type: text/plain; charset=UTF-8\\nPlural-Forms: nplurals=2; plural=n!=1;\\n"\n\n${entries.join('\n')}`;
}

before(async () => {
  // Translations lie beside the program.
  folder = mkdtempSync(join(tmpdir(), 'evet-language-'));
  const place = join(folder, 'share', 'locale', 'de', 'LC_MESSAGES');
  mkdirSync(place, { recursive: true });
  writeFileSync(join(folder, 'de.po'), translated(readFileSync(pot, 'utf8')));
  execFileSync('msgfmt', ['-o', join(place, 'evet.mo'), join(folder, 'de.po')]);
  copyFileSync(process.env.EVET_PROGRAM, join(folder, 'evet'));
  Object.assign(process.env, { EVET_PROGRAM: join(folder, 'evet'), LC_ALL: 'C.UTF-8', LANGUAGE: 'de' });
  harness = await import('./harness.mjs');
  browser = await harness.launch();
  served = await harness.Served.draw('everything');
});
after(async () => { await browser?.close(); await served?.end(); rmSync(folder, { recursive: true, force: true }); });

// What stands outside of all guillemets, a text or an attribute at a time. Commands stay as they are typed.
const bare = () => {
  const outside = (text) => { let depth = 0, out = ''; for (const sign of text) { if (sign === '«') ++depth; else if (sign === '»') --depth; else if (!depth) out += sign; } return out; };
  const said = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) if (!walker.currentNode.parentElement.closest('code, script, style, kbd, [data-names]')) said.push(walker.currentNode.data);
  for (const node of document.querySelectorAll('[aria-label], [title], [alt], [placeholder]'))
    for (const name of ['aria-label', 'title', 'alt', 'placeholder']) if (node.hasAttribute(name)) said.push(node.getAttribute(name));
  // What the pond's sheets and readers say is theirs, and sources are cited as they are.
  const theirs = /Alder Fen|chin row|first of its kind|from the map|No belly found|^\s*(north|south)\s*$|et al\.|\(\d{4}\)/;
  return [...new Set(said)].filter((text) => !theirs.test(text)).filter((text) => /[A-Za-z][a-z]+,? [a-z]{2,}/.test(outside(text)) || /^\s*[a-z]{3,}\s*$/.test(outside(text)));
};

test('every page speaks it', async () => {
  const { captures, fresh, unusable } = served.truth;
  const page = await harness.open(browser, served, 'TR');
  const found = {};
  for (const path of ['start', 'evening', 'tray', 'night', `capture/${fresh[0]}`, `capture/${unusable[0]}`, `pair/${captures[1][0]}/${captures[2][0]}`, 'pair', 'second', 'disputes',
    'individuals', `individual/${captures[3][0]}`, 'strips', 'growth', 'population', 'plan', 'calendar', 'map', 'ledger', 'report', 'settings']) {
    await harness.visit(page, path);
    await harness.until(page, () => !document.querySelector('.waiting'));
    const left = await page.evaluate(bare);
    if (left.length) found[path] = left;
  }
  assert.deepEqual(found, {});
  assert.equal(await page.locator('nav a[href="#/night"]').innerText(), '«Night»');
  assert.equal(await page.locator('h1').innerText(), '«Settings»');
  assert.deepEqual(page.problems, []);
});

test('a number takes the form of its language', async () => {
  const page = await harness.open(browser, served, 'TR');
  const said = await page.evaluate(async () => {
    const { counted } = await import('/words.js');
    return [1, 2, 101, 1001].map((n) => counted(n, '{n} photo', '{n} photos'));
  });
  assert.deepEqual(said, ['«1 photo»', '«2 photos»', '«101 photos»', '«1001 photos»']);
});
