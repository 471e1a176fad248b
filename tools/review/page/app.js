// The frame round every page: who reads, what is saved, where we are.
import { get, session } from './api.js';
import { commandsOf } from './command.js';
import { el, fill } from './dom.js';
import { enterAgain } from './enter_again.js';
import { watchGuests } from './guests.js';
import { showKeys, useKeys } from './keys.js';
import { flush, onSaved } from './outbox.js';
import { framedBy } from './place.js';
import { sayFrame } from './frame_words.js';
import { t } from './words.js';

const pages = {
  start: () => import('./start.js'),
  evening: () => import('./evening.js'),
  tray: () => import('./tray.js'),
  night: () => import('./night.js'),
  capture: () => import('./light_table.js'),
  midline: () => import('./midline.js'),
  pair: () => import('./pair.js'),
  second: () => import('./second.js'),
  disputes: () => import('./disputes.js'),
  individuals: () => import('./individuals.js'),
  individual: () => import('./individual.js'),
  population: () => import('./population.js'),
  plan: () => import('./plan.js'),
  ledger: () => import('./ledger.js'),
  report: () => import('./report.js'),
  calendar: () => import('./calendar.js'),
  map: () => import('./map.js'),
  strips: () => import('./strips.js'),
  growth: () => import('./growth.js'),
  settings: () => import('./settings.js'),
};
// Pages that have no link of their own at the top, and under which of those they belong.
const PART_OF = { capture: 'night', midline: 'night', pair: 'night', individual: 'individuals', strips: 'individuals', growth: 'individuals', report: 'calendar', tray: 'evening', plan: 'population' };
const PROGRAM = 'evet';
const main = document.getElementById('page');
let leave = null;
let shownAt = 0;

async function route() {
  const [asked, ...rest] = location.hash.replace(/^#\/?/, '').split('/').filter(Boolean);
  const page = session.hello.none ? 'start' : asked ?? 'night';
  const at = ++shownAt, hash = location.hash || '#/night';
  main.setAttribute('aria-busy', 'true');
  leave?.();
  leave = null;
  if (hash !== main.dataset.shown) useKeys([]); // drawn anew, a page goes on taking its keys meanwhile
  for (const link of document.querySelectorAll('nav a')) {
    const here = link.hash === `#/${PART_OF[page] ?? page}`;
    if (here) {
      link.setAttribute('aria-current', 'page');
      link.scrollIntoView({ block: 'nearest', inline: 'center' }); // on a phone they lie in one row
    } else link.removeAttribute('aria-current');
  }
  if (!pages[page]) return showPage(hash, el('h1', {}, t('There is no such page')));
  try {
    const module = await pages[page]().catch(() => { throw new Error(t('The program does not answer: it may have been ended. Start it again and open the address that it gives; what you said is kept.')); });
    if (at !== shownAt) return;
    const still = () => at === shownAt;
    const root = el('div', { class: `view ${page}` });
    const ends = await module.show(root, rest, still);
    leave = typeof ends === 'function' ? ends : null;
    if (!still()) return leave?.();
    showPage(hash, root, commandsOf(page, rest));
    scrollTo(0, 0);
    root.querySelector('[data-first]')?.focus({ preventScroll: true });
  } catch (error) {
    if (at === shownAt) showError(error);
  }
}

// `data-shown` names the page that is drawn, which is behind the address until it has been loaded.
function showPage(hash, ...children) {
  fill(main, ...children);
  main.dataset.shown = hash;
  main.removeAttribute('aria-busy');
}

// Under the code of somebody else nothing is shown: the code has to be another one, or its browser has to be left.
const OF_ANOTHER = ['code_is_read_under_elsewhere', 'browser_wrote_as_reader', 'code_waits_for_yes', 'sent_away'];
const ASKED_AGAIN_MS = 3000;

function showError(error) {
  const gone = error.status === 401, another = OF_ANOTHER.includes(error.code);
  const again = gone ? async () => (await enterAgain()) && route() : route;
  if (error.code === 'code_waits_for_yes') { // until somebody says yes at the machine
    const at = shownAt;
    setTimeout(() => at === shownAt && route(), ASKED_AGAIN_MS);
  }
  showPage('', el('h1', {}, gone ? t('The program was started anew') : error.code === 'code_waits_for_yes' ? t('Waiting for a yes') : another ? t('Sign with another code') : t('This did not work')),
    el('p', { role: 'alert' }, error.message),
    el('div.actions', {}, another && el('button.main', { type: 'button', onclick: changeReader }, t('Change the observer code')),
      (!gone || session.hello?.guest) && el('button', { type: 'button', onclick: again }, gone ? t('Enter again') : t('Try again'))));
}

async function changeReader() {
  await askReader();
  frame();
  route();
}

function askReader() {
  return new Promise((resolve) => {
    const input = el('input', { id: 'code', value: session.reader, required: true, maxlength: '40', autocomplete: 'off',
      pattern: '[ -~]*[!-~][ -~]*' });
    const dialog = el('dialog', { 'aria-labelledby': 'who' },
      el('form', { method: 'dialog', onsubmit: () => {
        session.reader = input.value.trim();
        localStorage.setItem('evet.reader', session.reader);
      } },
      el('h2', { id: 'who' }, t('Who reads?')),
      el('label', { for: 'code' }, t('Your observer code: every verdict is signed with it.')), input,
      el('button', { type: 'submit' }, t('Read'))));
    dialog.addEventListener('cancel', (event) => { if (!session.reader) event.preventDefault(); });
    dialog.addEventListener('close', () => { dialog.remove(); resolve(); });
    document.body.append(dialog);
    dialog.showModal();
    input.select();
  });
}

function theme(next) {
  const dark = next ?? localStorage.getItem('evet.theme') ?? 'dark';
  document.documentElement.dataset.theme = dark;
  const other = dark === 'dark' ? 'light' : 'dark';
  const toggle = document.getElementById('light');
  toggle.textContent = other === 'light' ? t('Light') : t('Dark');
  toggle.setAttribute('aria-label', other === 'light' ? t('Use the light theme') : t('Use the dark theme'));
  toggle.onclick = () => { localStorage.setItem('evet.theme', other); theme(other); };
}

function frame() {
  document.getElementById('title').textContent = session.hello.title || PROGRAM;
  document.body.classList.toggle('no-catalogue', Boolean(session.hello.none));
  document.title = t('{what} – evet', { what: session.hello.title || t('Catalogue') });
  document.getElementById('dispute-count').textContent = session.hello.disputes ? ` ${session.hello.disputes}` : '';
  const reader = document.getElementById('reader');
  reader.textContent = t('Reader {reader}', { reader: session.reader });
  reader.onclick = changeReader;
  document.getElementById('keys').onclick = showKeys;
  fill(document.getElementById('cautions'),
    el('ul', {}, [...session.hello.warnings, ...session.hello.cautions].map((one) => el('li', {}, one))));
}

async function start() {
  sayFrame();
  theme();
  try {
    session.hello = await get('/api/hello');
  } catch (error) {
    return showError(error);
  }
  session.reader = localStorage.getItem('evet.reader') || session.hello.reader;
  if (!session.reader) await askReader();
  frame();
  const saved = document.getElementById('saved');
  onSaved((state, sentence, left) => {
    const words = { saved: t('Saved'), saving: t('Saving…'), asking: t('Checking…'), waiting: t('Not saved yet: {left}. {sentence}', { left, sentence }), stopped: sentence,
      refused: sentence };
    saved.textContent = words[state];
    saved.dataset.state = state;
  });
  const header = document.querySelector('header');
  new ResizeObserver(() => document.documentElement.style.setProperty('--head', `${header.offsetHeight}px`)).observe(header);
  // A phone that comes in by the passphrase is at the tray.
  if (session.hello.guest && !session.hello.none && !location.hash && matchMedia('(max-width: 760px)').matches) history.replaceState(null, '', '#/tray');
  addEventListener('hashchange', route);
  await route();
  if (!session.hello.none) flush();
  if (session.hello.shared && !session.hello.guest) watchGuests();
  // The other pages are fetched while the program is there: who has been reading for an hour can go on to any of
  // them, and reads plain words when it was ended.
  for (const load of Object.values(pages)) load().catch(() => {});
}

framedBy({ draw: route, drawFrame: frame });
start();
