// Disputes: both readings with their reasons, the evidence, later photos, and the verdict of a third reader.
import { get, session } from './api.js';
import { agreementSection } from './agreement.js';
import { comparer } from './compare.js';
import { button, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { ANSWERS, factsList } from './parts.js';
import { refreshHello, reload } from './place.js';
import { sayWeighed, weighed } from './weigh.js';
import { t } from './words.js';

function readings(dispute) {
  return el('ul.readings', {}, dispute.readings.map((one) => el('li', {},
    el('strong', {}, one.reader), one.blind && t(' (blind)'), ': ', el('strong', {}, ANSWERS[one.answer]), ` – ${one.reason || t('no reason given')}`,
    el('br'), el('span.why', {}, t('{names}; said {time}', { names: one.names.filter(Boolean).join(' – '), time: one.time.slice(0, 16).replace('T', ' ') })))));
}

// What verdicts do not settle: one picture of which the sheets do not agree, and entries that cannot be read.
function openQuestions(questions, setAside, labels) {
  return [labels.length > 0 && el('section', {}, el('h2', {}, t('One label, two individuals')), el('ul', {}, labels.map((one) => el('li', {}, one)))),
    questions.length > 0 && el('section', {}, el('h2', {}, t('One picture, two sheets')), el('ul', {}, questions.map((one) => el('li', {}, one)))),
    setAside.length > 0 && el('section', {}, el('h2', {}, t('Entries set aside')), el('ul', {}, setAside.map((one) => el('li', {}, one))))];
}

export async function show(root, [chosen]) {
  const { disputes, picture_questions: questions, set_aside: setAside, shared_labels: labels } = await get('/api/disputes');
  const at = Math.min(Number(chosen) || 0, Math.max(0, disputes.length - 1));
  const dispute = disputes[at];
  if (!dispute) {
    fill(root, el('h1', {}, t('Disputes')), el('p.done', {}, t('No verdicts contradict each other.')), ...openQuestions(questions, setAside, labels), await agreementSection());
    return null;
  }
  const table = comparer();
  const reason = el('input', { id: 'reason', maxlength: '1000', autocomplete: 'off', required: true });
  const told = el('p.told', { role: 'status' });
  const shownOf = (side) => [...side.photos.map((photo) => ({ photo, words: `${side.name}, ${side.night}` })),
    ...side.later.map((one) => ({ photo: one.photo, words: t('same individual, {night}', { night: one.night }) }))];
  const choices = shownOf(dispute.a), others = shownOf(dispute.b);
  let own = 0, other = 0;
  const lay = () => choices[0] && others[0] && table.lay(choices[own % choices.length].photo, others[other % others.length].photo,
    [choices[own % choices.length].words, others[other % others.length].words]);
  // Only what the answer contradicts is settled: a verdict that it confirms goes on counting.
  const settles = { same: dispute.against, different: dispute.contested, cannot_tell: [...dispute.against, ...dispute.contested] };
  async function decide(answer) {
    if (!reason.value.trim()) { told.textContent = t('Say what decided it: an adjudication needs a reason.'); reason.focus(); return; }
    try {
      const body = { capture: dispute.a.capture, other: dispute.b.capture, answer, reason: reason.value.trim(), settles: settles[answer] };
      const words = t('{name} and {name2}: {answers}', { name: dispute.a.name, name2: dispute.b.name, answers: ANSWERS[answer] });
      const ready = answer === 'same' ? await weighed(body, words) : body;
      if (!ready) return;
      await sayWeighed('/api/adjudicate', ready, words);
      await refreshHello();
      reload();
    } catch (error) {
      told.textContent = error.message;
    }
  }
  const open = !dispute.took_part && !dispute.known_identities;
  const turns = el('div.turns', {}, choices.length > 1 && button('[', t('{name}: other photos, {choices}', { name: dispute.a.name, choices: choices.length }), () => { own += 1; lay(); }, { class: 'small' }),
    others.length > 1 && button(']', t('{name}: other photos, {others}', { name: dispute.b.name, others: others.length }), () => { other += 1; lay(); }, { class: 'small' }));
  const decision = dispute.known_identities ? el('p', {}, t('The sheets know both captures as two individuals, and verdicts join them: correct the sheet, or take the verdict back.'))
    : dispute.took_part ? el('p.problem', {}, t('You gave one of these verdicts: a third reader decides.'))
      : [el('label.reason', { for: 'reason' }, el('kbd', {}, 'R'), t(' Reason, needed'), reason),
        el('div.verdicts', {}, button('S', t('＝ Same'), () => decide('same'), { class: 'same' }), button('D', t('≠ Different'), () => decide('different'), { class: 'different' }),
          button('C', t('? Cannot tell'), () => decide('cannot_tell'), { class: 'cannot' }))];
  fill(root,
    el('div.pair-of', {}, table.node, el('div.side', {},
      disputes.length > 1 && el('nav', { 'aria-label': t('Disputes') }, disputes.map((one, i) => el('a', { href: `#/disputes/${i}`, 'aria-current': i === at && 'page' }, `${one.a.name} – ${one.b.name}`))),
      el('h1', {}, t('Dispute {at} of {disputes}', { at: at + 1, disputes: disputes.length })),
      readings(dispute),
      dispute.misfits.length ? el('p.problem', {}, t('On the sheet: {misfits}', { misfits: dispute.misfits.join('; ') })) : null,
      turns,
      el('section.dispute', {}, el('h2', {}, t('Adjudication by {reader}', { reader: session.reader })), decision, told),
      [dispute.a, dispute.b].map((side) => el('details', {}, el('summary', {}, t('Sheet of {name}, {night}', { name: side.name, night: side.night })), factsList(side.facts))))),
    ...openQuestions(questions, setAside, labels), await agreementSection());
  useKeys([...(open ? [{ key: 's', label: t('Same'), run: () => decide('same') }, { key: 'd', label: t('Different'), run: () => decide('different') },
    { key: 'c', label: t('Cannot tell'), run: () => decide('cannot_tell') }, { key: 'r', label: t('Write the reason'), run: () => reason.focus() }] : []),
  { key: '[', label: t('Other photos of the first'), run: () => { own += 1; lay(); } }, { key: ']', label: t('Other photos of the second'), run: () => { other += 1; lay(); } },
  ...table.keys]);
  lay();
  return () => table.close();
}
