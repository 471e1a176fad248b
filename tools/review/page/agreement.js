// How far readers agree, and how often each errs where the answer is known.
import { get } from './api.js';
import { counted, el } from './dom.js';

const two = (x) => x.toFixed(2);
// An interval that takes in nearly everything says so in words.
const kappa = (k) => (k ? `${two(k.kappa)} (${two(k.low)} to ${two(k.high)}${k.high - k.low > 1.5 ? ', too few to tell' : ''})` : 'not defined: only one kind of answer was given');
const share = (k) => (k ? ` (${Math.round(100 * k.observed_low)} to ${Math.round(100 * k.observed_high)} %)` : '');
const rate = (r) => (r.trials ? `${r.errors} of ${r.trials} (${Math.round(r.low * 100)} to ${Math.round(r.high * 100)} %)` : 'no trial');

function table(caption, head, rows) {
  return el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': caption }, el('table', {}, el('caption', {}, caption),
    el('thead', {}, el('tr', {}, head.map((word) => el('th', { scope: 'col' }, word)))),
    el('tbody', {}, rows.map((row) => el('tr', {}, row.map((value) => el('td', {}, value)))))));
}

export async function agreementSection() {
  const found = await get('/api/agreement');
  const sent = el('p.why', {}, `${Math.round(found.share * 100)} % of the settled pairs are sent for a second reading (--second-share of evet review): ${counted(found.blind, 'blind verdict')} so far, ${found.planted} of them on pairs whose answer is known${found.taken_back ? `, ${found.taken_back} taken back since` : ''}.`);
  if (!found.cases && !found.errors.length) return el('section', {}, el('h2', {}, 'Agreement'), el('p.why', {}, 'No pair has been read by two readers yet.'), sent);
  return el('section', {}, el('h2', {}, 'Agreement'),
    found.cases ? el('p', {}, `${counted(found.cases, 'pair')} read by two readers or more, ${counted(found.readings, 'reading')}: agreed on ${found.agreed}${share(found.fleiss)}. Fleiss’ kappa ${kappa(found.fleiss)}. Kappa’s interval is by bootstrap over the pairs, never narrower than the exact one of the agreement.`) : null,
    sent,
    found.not_independent ? el('p.why', {}, `${counted(found.not_independent, 'answer')} given in sight of an earlier one left out.`) : null,
    found.pairs.length ? table('Two readers at a time, Cohen’s kappa with its 95 % interval', ['Readers', 'Pairs', 'Kappa'], found.pairs.map((one) => [`${one.first} – ${one.second}`, String(one.cases), kappa(one.cohen)])) : null,
    found.errors.length ? table('Each reader on pairs whose answer is known, with exact 95 % intervals', ['Reader', 'False match', 'False non-match', 'Cannot tell'],
      found.errors.map((one) => [one.reader, rate(one.false_match), rate(one.false_non_match), String(one.cannot_tell)])) : null);
}
