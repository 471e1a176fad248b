// A guest whose program was started anew: the passphrase once more, on the page that stands there, since a reload
// would lose the photos that wait to be sent.
import { get, session } from './api.js';
import { el } from './dom.js';
import { t } from './words.js';

let asking = null;

async function ask() {
  const passphrase = el('input', { id: 'passphrase-again', type: 'password', required: true, autocomplete: 'current-password' });
  const told = el('p.problem', { role: 'alert', hidden: true });
  const dialog = el('dialog', { 'aria-labelledby': 'enter-title' },
    el('h2', { id: 'enter-title' }, t('The program was started anew')),
    el('p', {}, t('Nothing is lost: what waits here is sent when you are in again.')),
    el('form', { onsubmit: async (event) => {
      event.preventDefault();
      const answer = await fetch('/enter', { method: 'POST', body: passphrase.value, redirect: 'manual' }).catch(() => null);
      if (answer?.type === 'opaqueredirect') {
        session.hello = await get('/api/hello').catch(() => session.hello);
        return dialog.close('in');
      }
      told.textContent = (await answer?.json().catch(() => null))?.error?.sentence ?? t('The program does not answer.');
      told.hidden = false;
      passphrase.select();
    } }, el('label', { for: 'passphrase-again' }, t('The passphrase of the page')), passphrase, told,
    el('div.actions', {}, el('button.main', { type: 'submit' }, t('Enter')), el('button', { type: 'button', onclick: () => dialog.close() }, t('Later')))));
  document.body.append(dialog);
  dialog.showModal();
  await new Promise((resolve) => { dialog.addEventListener('close', resolve); });
  dialog.remove();
  return dialog.returnValue === 'in';
}

// Whether this browser is known again. Who sits at the machine has no passphrase, but the address that was printed.
export function enterAgain() {
  if (!session.hello?.guest) return Promise.resolve(false);
  asking ??= ask().finally(() => { asking = null; });
  return asking;
}
