// Any two captures side by side: how individuals are joined and split, and how disputes are looked at.
import { forgetAhead } from './ahead.js';
import { get } from './api.js';
import { comparer } from './compare.js';
import { button, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { say } from './outbox.js';
import { ANSWERS, factsList } from './parts.js';
import { refreshHello } from './place.js';

const photosOf = (capture) => capture.photos.filter((photo) => photo.usable).map((photo) => photo.photo);

export async function show(root, [a, b]) {
  const [capture, candidate] = await Promise.all([get(`/api/capture/${a}`), get(`/api/capture/${b}`)]);
  const table = comparer();
  const mine = photosOf(capture), theirs = photosOf(candidate);
  let own = 0, other = 0;
  const lay = () => mine.length && theirs.length && table.lay(mine[own % mine.length], theirs[other % theirs.length], [capture.name, candidate.name]);
  const told = el('p.told', { role: 'status' });
  const reason = el('input', { id: 'reason', maxlength: '1000', autocomplete: 'off' });
  const facts = el('div', {});
  async function verdict(answer) {
    try {
      await say('/api/verdict', { capture: a, other: b, answer, reason: reason.value.trim() });
      told.textContent = `Saved: ${ANSWERS[answer]}.`;
      forgetAhead();
      const seen = await Promise.all([get(`/api/capture/${a}`), get(`/api/capture/${b}`)]);
      // Split off, a capture belongs to nobody until somebody says who it is.
      fill(facts, seen.filter((one) => !one.settled && !one.disputed).map((one) => el('p', {}, el('a', { href: `#/capture/${one.capture}` }, `${one.name} belongs to no individual now: settle it`))),
        seen.map((one) => one.facts && [el('h2', {}, one.name), factsList(one.facts)]));
      await refreshHello();
    } catch (error) {
      told.textContent = error.message;
    }
  }
  fill(root, table.node, el('div.side', {},
    el('p.place', {}, el('a', { href: `#/night/${capture.night}` }, 'Night'), ' · ', el('a', { href: '#/individuals' }, 'Individuals'), candidate.settled && [' · ', el('a', { href: `#/individual/${b}` }, candidate.settled)]),
    el('h1', {}, `${capture.name} and ${candidate.name}`),
    mine.length && theirs.length ? null : el('p.problem', {}, 'One of them has no usable photo.'),
    el('label.reason', { for: 'reason' }, el('kbd', {}, 'R'), ' Reason', reason),
    el('div.verdicts', {}, button('S', '＝ Same', () => verdict('same'), { class: 'same' }), button('D', '≠ Different', () => verdict('different'), { class: 'different' }),
      button('C', '? Cannot tell', () => verdict('cannot_tell'), { class: 'cannot' })),
    told, facts));
  useKeys([
    { key: 's', label: 'Same', run: () => verdict('same') }, { key: 'd', label: 'Different', run: () => verdict('different') },
    { key: 'c', label: 'Cannot tell', run: () => verdict('cannot_tell') }, { key: 'r', label: 'Write a reason', run: () => reason.focus() },
    { key: '[', label: 'Another photo of the first', run: () => { own += 1; lay(); } },
    { key: ']', label: 'Another photo of the second', run: () => { other += 1; lay(); } },
    ...table.keys,
  ]);
  lay();
  return () => table.close();
}
