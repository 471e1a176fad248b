// A capture that can belong to nobody is closed: no animal in it, not identifiable, the same as another of the night.
import { command, verdictCommand } from './command.js';
import { button, el } from './dom.js';
import { sayWeighed, weighed } from './weigh.js';
import { t } from './words.js';

// `capture`: { capture, name }; `night`: as /api/night gives it, for the others of the night.
export function closeCapture({ capture, name }, night, done) {
  const others = [...night.queue, ...night.settled, ...night.unusable].filter((one) => one.capture !== capture);
  const reason = el('input', { id: 'close-reason', maxlength: '1000', autocomplete: 'off' });
  const which = el('select', { id: 'close-other', 'aria-label': t('Which other capture of this night') },
    others.map((one) => el('option', { value: one.capture }, one.individual ? `${one.name} (${one.individual})` : one.name)));
  const told = el('p.told', { role: 'status' });
  const say = async (as) => {
    const body = { capture, as, reason: reason.value.trim(), ...(as === 'same_capture' && { other: which.value }) };
    const words = t('Close {name}', { name });
    dialog.close();
    try {
      const ready = await weighed(body, words);
      if (!ready) return;
      await sayWeighed('/api/close', ready, words);
      done();
    } catch (error) {
      told.textContent = error.message;
      document.body.append(dialog);
      dialog.showModal();
    }
  };
  const dialog = el('dialog.close', { 'aria-labelledby': 'close-title' },
    el('h2', { id: 'close-title' }, t('Close {name} without an identity', { name })),
    el('p.why', {}, t('It waits for nobody any more, and no animal is made of it. It can be undone.')),
    el('label', { for: 'close-reason' }, t('Reason')), reason,
    el('div.choices', {}, button('1', t('No animal in it'), () => say('no_animal')), button('2', t('An animal, not identifiable'), () => say('not_identifiable')),
      others.length > 0 && el('div.row-of', {}, button('3', t('The same animal in hand as'), () => say('same_capture')), which)),
    told, command(verdictCommand(name, 'no-animal'), verdictCommand(name, 'not-identifiable'), verdictCommand(name, 'same-capture', 'OTHER')), button('Esc', t('Leave it open'), () => dialog.close(), { class: 'quiet' }));
  dialog.addEventListener('keydown', (event) => {
    if (event.target.matches('input, select')) return;
    const as = { 1: 'no_animal', 2: 'not_identifiable', 3: others.length > 0 && 'same_capture' }[event.key];
    if (as) { event.preventDefault(); say(as); }
  });
  dialog.addEventListener('close', () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
  dialog.querySelector('.choices button').focus();
}
