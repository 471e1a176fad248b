// Elements without markup in strings: text can hold anything and is never read as HTML.
import { t } from './words.js';

// el('a.strong', { href: '#/' }, 'text', child, ...): class names after dots; `on...` are listeners.
export function el(what, given = {}, ...children) {
  const [tag, ...classes] = what.split('.');
  const node = document.createElement(tag || 'div');
  if (classes.length) node.className = classes.join(' ');
  for (const [name, value] of Object.entries(given)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else if (name in node && typeof value !== 'string') node[name] = value;
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

export function fill(node, ...children) {
  node.replaceChildren(...children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

// Draws afresh what may be in use: whoever was typing, or had come to a control by the Tab key, stays there.
export function refill(node, ...children) {
  const held = node.contains(document.activeElement) ? document.activeElement : null;
  const named = (one) => one.id || one.getAttribute('href') || one.textContent;
  const name = held && named(held);
  fill(node, ...children);
  if (!held) return node;
  const again = node.contains(held) ? held : [...node.querySelectorAll('a, button, input, select')].find((one) => named(one) === name);
  again?.focus({ preventScroll: true });
  return node;
}

// A button that shows its key.
export function button(key, label, run, more = {}) {
  return el('button', { type: 'button', onclick: run, ...more }, key && el('kbd', {}, key), key && ' ', label);
}

// As every page and command writes it: see tools/words/text.h.
export function percent(p) {
  if (p > 0.999) return t('more than {share}', { share: '99.9 %' });
  if (p < 0.001) return t('less than {share}', { share: '0.1 %' });
  const share = 100 * p;
  return `${share.toFixed(share >= 10 && share <= 90 ? 0 : 1)} %`;
}

const IN_MONTH = [(at) => t('{day} January {year}', at), (at) => t('{day} February {year}', at), (at) => t('{day} March {year}', at),
  (at) => t('{day} April {year}', at), (at) => t('{day} May {year}', at), (at) => t('{day} June {year}', at),
  (at) => t('{day} July {year}', at), (at) => t('{day} August {year}', at), (at) => t('{day} September {year}', at),
  (at) => t('{day} October {year}', at), (at) => t('{day} November {year}', at), (at) => t('{day} December {year}', at)];

export function dateInWords(date) {
  const [year, month, day] = date.split('-').map(Number);
  return month ? IN_MONTH[month - 1]({ day, year }) : date;
}

// A date that no line is broken in.
export const whole = (date) => date.replaceAll('-', '\u2011');

export { counted } from './words.js';

export const reducedMotion = () => matchMedia('(prefers-reduced-motion: reduce)').matches;
