// The capture judged last: its sheet is shown only now, beside the next one.
import { get } from './api.js';
import { el } from './dom.js';
import { factsList } from './parts.js';
import { t } from './words.js';

let judged = null;

export function judgedPanel() {
  if (!judged) return null;
  const misfits = judged.candidate?.misfits ?? [];
  return el('section.judged', { 'aria-label': t('The sheet of what you judged last') },
    el('h2', {}, `${judged.name}: ${judged.words}`),
    misfits.length ? [el('p.problem', {}, t('Does not fit the verdict:')), el('ul', {}, misfits.map((one) => el('li', {}, one)))] : null,
    judged.facts && factsList(judged.facts));
}

export async function remember(capture, candidate, words) {
  judged = { capture: capture.capture, name: capture.name, words };
  const seen = await get(`/api/capture/${capture.capture}`).catch(() => null);
  if (!seen || judged.capture !== seen.capture) return;
  judged.facts = seen.facts;
  judged.candidate = seen.candidates.find((one) => one.capture === candidate?.capture);
  document.querySelector('.judged')?.replaceWith(judgedPanel());
}
