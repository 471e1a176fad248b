// A second reading, blind: first the photo alone, then the pair; neither score, rank nor anyone's verdict.
import { get } from './api.js';
import { comparer } from './compare.js';
import { button, counted, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { say } from './outbox.js';
import { refreshHello, reload } from './place.js';
import { t } from './words.js';

export async function show(root) {
  const second = await get('/api/second');
  const item = second.item;
  if (!item) {
    fill(root, el('h1', {}, t('Second reading')),
      el('p.done', {}, t('Nothing waits for you to read.')),
      el('p.why', {}, t('Disputes come here, {share} % of the settled pairs, and some pairs whose answer is known. Pairs that you have judged before do not.', { share: Math.round(second.share * 100) })));
    return null;
  }
  root.classList.add('two');
  const table = comparer({ ties: false });
  const reason = el('input', { id: 'reason', maxlength: '1000', autocomplete: 'off' });
  const told = el('p.told', { role: 'status' });
  const after = (done) => done.then(refreshHello).then(reload).catch((error) => { told.textContent = error.message; });
  const judge = (usable) => after(say('/api/reading', { capture: item.capture, usable, reason: reason.value.trim() }));
  const verdict = (answer) => after(say('/api/verdict', { capture: item.capture, other: item.candidate.capture, answer, reason: reason.value.trim(), blind: true }));
  const steps = item.read
    ? [['s', 'same', t('＝ Same'), () => verdict('same'), t('Same')], ['d', 'different', t('≠ Different'), () => verdict('different'), t('Different')],
      ['c', 'cannot', t('? Cannot tell'), () => verdict('cannot_tell'), t('Cannot tell')]]
    : [['u', 'same', t('✓ Can be used'), () => judge(true), t('The photo can be used')], ['n', 'different', t('✗ Cannot be used'), () => judge(false), t('The photo cannot be used')]];
  let own = 0, other = 0;
  const lay = () => table.lay(item.photos[own % item.photos.length], item.read ? item.candidate.photos[other % item.candidate.photos.length] : undefined);
  fill(root, table.node, el('div.side', {}, el('div.scrolls', {},
    el('p.place', {}, t('Second reading · {pairs} left', { pairs: counted(second.left, '{n} pair', '{n} pairs') })),
    el('h1', {}, item.read ? t('Do both show one animal?') : t('The photo alone: can it be used?')),
    el('p.why', {}, item.read ? t('Nothing is shown of what anyone, the program included, thinks of them.')
      : t('Judge what can be seen before you see what it is held against.'))),
    el('div.dock', {}, told,
    el('label.reason', { for: 'reason' }, el('kbd', {}, 'R'), item.read ? t(' Reason') : t(' What can be seen'), reason),
    el('div.verdicts', {}, steps.map(([key, name, label, run]) => button(key.toUpperCase(), label, run, { class: name }))))));
  useKeys([...steps.map(([key, , , run, label]) => ({ key, label, run })), { key: 'r', label: t('Write a reason'), run: () => reason.focus() },
    { key: '[', label: t('Another photo of the first'), run: () => { own += 1; lay(); } },
    { key: ']', label: t('Another photo of the second'), run: () => { other += 1; lay(); } }, ...table.keys]);
  lay();
  return () => table.close();
}
