// Keys: one list for the page that is shown, visible as hints on its buttons and all together under "?".
import { el, fill } from './dom.js';
import { t } from './words.js';

let current = [];
const SINGLE = 'evet.single_keys';
const single = () => localStorage.getItem(SINGLE) !== 'off';

// [{ key, label, run }]; key as in KeyboardEvent.key, with "Shift+" before it where held. Replaces the last list.
export function useKeys(list) {
  current = list;
}
export const addKeys = (list) => current.push(...list);

function typing(target) {
  return target.closest?.('input:not([type=range]):not([type=checkbox]), textarea, select, [contenteditable]');
}

function keyOf(event) {
  const shift = event.shiftKey && (event.key.length > 1 || /[a-z]/i.test(event.key));
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  return shift ? `Shift+${key}` : key;
}

document.addEventListener('keydown', (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
  if (typing(event.target)) {
    if (event.key === 'Escape') event.target.blur();
    return;
  }
  if (document.querySelector('dialog[open]')) return;
  const key = keyOf(event);
  // Enter and the space bar belong to a focused button or link, arrows to a slider.
  if ((key === 'Enter' || key === ' ') && event.target.closest?.('button, a, summary, input')) return;
  if (key.includes('Arrow') && event.target.closest?.('input[type=range]')) return;
  if (key === '?') return showKeys();
  if (key.replace('Shift+', '').length === 1 && !single()) return;
  const found = current.find((one) => one.key === key);
  if (!found || (event.repeat && !found.repeats)) return;
  event.preventDefault();
  found.run();
});

const shown = (key) => key.replace('Arrow', '').replace('Shift+', 'Shift ').replace(/^ $/, t('Space'));

export function showKeys() {
  const dialog = el('dialog.keys', { 'aria-labelledby': 'keys-title' });
  const box = el('input', { type: 'checkbox', checked: single(), id: 'single-keys',
    onchange: () => localStorage.setItem(SINGLE, box.checked ? 'on' : 'off') });
  fill(dialog,
    el('h2', { id: 'keys-title' }, t('Keys on this page')),
    el('dl', {}, current.filter((one) => one.label).flatMap((one) => [el('dt', {}, el('kbd', {}, shown(one.key))), el('dd', {}, one.label)])),
    el('label', { for: 'single-keys' }, box, t(' Keys of a single letter work')),
    el('button', { type: 'button', autofocus: true, onclick: () => dialog.close() }, t('Close')));
  dialog.addEventListener('close', () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}
