// What speaks against a verdict is said before it is recorded, with the pictures; then only a reason records it.
import { get, Refused } from './api.js';
import { button, el } from './dom.js';
import { asking, say } from './outbox.js';
import { sentence } from './parts.js';
import { t } from './words.js';

const asked = ({ capture, other = '', answer = '', as = '' }) => new URLSearchParams(as ? { capture, other, as } : { capture, other, answer });
const speaksAgainst = async (body) => (await get(`/api/objections?${asked(body)}`)).objections;

function pictures(found) {
  const seen = new Set();
  const figures = found.flatMap((one) => one.photos.map((photo, i) => ({ ...photo, name: one.names[i] })))
    .filter(({ photo }) => !seen.has(photo) && seen.add(photo)).slice(0, 4);
  return el('div.beside', {}, figures.map(({ photo, strip, name }) => el('figure', {},
    el('img', { src: strip ? `/strip/${photo}` : `/photo/${photo}`, alt: t('{what} of {name}', { what: strip ? t('Strip') : t('Photo'), name }), class: strip ? 'lying' : 'whole' }), el('figcaption', {}, name))));
}

// The reason why it is so all the same, or null where it is not to be recorded.
export function askWhy(found, words, reason = '') {
  return new Promise((resolve) => {
    let answer = null;
    const why = el('input', { id: 'why-all-the-same', value: reason, required: true, maxlength: '1000', autocomplete: 'off' });
    const dialog = el('dialog.against', { 'aria-labelledby': 'against-title' },
      el('form', { method: 'dialog', onsubmit: () => { answer = why.value.trim() || null; } },
        el('h2', { id: 'against-title' }, t('{words}? Something speaks against it', { words })),
        el('ul', {}, found.map((one) => el('li.problem', {}, sentence(one.sentence)))),
        pictures(found),
        el('label', { for: 'why-all-the-same' }, t('Why it is so all the same. This is kept, and the audit and the report list it.')), why,
        el('div.actions', {}, button('Esc', t('Go back, record nothing'), () => dialog.close(), { class: 'main' }),
          el('button', { type: 'submit' }, t('Record it with this reason')))));
    dialog.addEventListener('close', () => { dialog.remove(); resolve(answer); });
    document.body.append(dialog);
    dialog.showModal();
    why.focus();
  });
}

// The body to say, with a reason where one was needed; null when the reader went back. Where the program is not to be
// reached, or was started anew, the body as it is: it waits in the outbox and is weighed when it arrives.
export const weighed = (body, words) => asking(() => weigh(body, words));

async function weigh(body, words) {
  let found = [];
  try {
    found = await speaksAgainst(body);
  } catch (error) {
    const away = !(error instanceof Refused) || error.status >= 500 || error.status === 401 || error.status === 403;
    if (!away) throw error;
  }
  return found.length ? overruled(body, found, words) : body;
}

async function overruled(body, found, words) {
  const reason = await askWhy(found, words, body.reason);
  return reason && { ...body, reason, in_spite_of: found.map((one) => one.code) };
}

// Says it. What began to speak against it on the way, by what was said just before, is asked about as well.
export async function sayWeighed(path, body, words) {
  try {
    return await say(path, body);
  } catch (error) {
    if (error.status !== 409) throw error;
    const found = await speaksAgainst(body);
    if (found.every((one) => body.in_spite_of?.includes(one.code))) throw error;
    const again = await overruled(body, found, words);
    if (!again) throw new Error(t('Nothing was recorded.'));
    return say(path, again);
  }
}
