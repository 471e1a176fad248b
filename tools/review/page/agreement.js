// How far readers agree, and how often each errs where the answer is known.
import { get } from './api.js';
import { counted, el } from './dom.js';
import { t } from './words.js';

const two = (x) => x.toFixed(2);
// An interval that takes in nearly everything says so in words.
const kappa = (k) => (k ? t('{two} ({two2} to {two3}{what})', { two: two(k.kappa), two2: two(k.low), two3: two(k.high), what: k.high - k.low > 1.5 ? t(', too few to tell') : '' }) : t('not defined: only one kind of answer was given'));
const share = (k) => (k ? t(' ({observed_low} to {observed_high} %)', { observed_low: Math.round(100 * k.observed_low), observed_high: Math.round(100 * k.observed_high) }) : '');
const rate = (r) => (r.trials ? t('{errors} of {trials} ({low} to {high} %)', { errors: r.errors, trials: r.trials, low: Math.round(r.low * 100), high: Math.round(r.high * 100) }) : t('no trial'));

function table(caption, head, rows) {
  return el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': caption }, el('table', {}, el('caption', {}, caption),
    el('thead', {}, el('tr', {}, head.map((word) => el('th', { scope: 'col' }, word)))),
    el('tbody', {}, rows.map((row) => el('tr', {}, row.map((value) => el('td', {}, value)))))));
}

export async function agreementSection() {
  const found = await get('/api/agreement');
  const sent = el('p.why', {}, t('{share} % of the settled pairs are sent for a second reading (--second-share of evet review): {verdicts} so far, {planted} of them on pairs whose answer is known{what}.', { share: Math.round(found.share * 100), verdicts: counted(found.blind, '{n} blind verdict', '{n} blind verdicts'), planted: found.planted, what: found.taken_back ? t(', {taken_back} taken back since', { taken_back: found.taken_back }) : '' }));
  if (!found.cases && !found.errors.length) return el('section', {}, el('h2', {}, t('Agreement')), el('p.why', {}, t('No pair has been read by two readers yet.')), sent);
  return el('section', {}, el('h2', {}, t('Agreement')),
    found.cases ? el('p', {}, t('{pairs} read by two readers or more, {readings}: agreed on {agreed}{share}. Fleiss’ kappa {kappa}. Kappa’s interval is by bootstrap over the pairs, never narrower than the exact one of the agreement.', { pairs: counted(found.cases, '{n} pair', '{n} pairs'), readings: counted(found.readings, '{n} reading', '{n} readings'), agreed: found.agreed, share: share(found.fleiss), kappa: kappa(found.fleiss) })) : null,
    sent,
    found.not_independent ? el('p.why', {}, t('{answers} given in sight of an earlier one left out.', { answers: counted(found.not_independent, '{n} answer', '{n} answers') })) : null,
    found.pairs.length ? table(t('Two readers at a time, Cohen’s kappa with its 95 % interval'), [t('Readers'), t('Pairs'), t('Kappa')], found.pairs.map((one) => [`${one.first} – ${one.second}`, String(one.cases), kappa(one.cohen)])) : null,
    found.errors.length ? table(t('Each reader on pairs whose answer is known, with exact 95 % intervals'), [t('Reader'), t('False match'), t('False non-match'), t('Cannot tell')],
      found.errors.map((one) => [one.reader, rate(one.false_match), rate(one.false_non_match), String(one.cannot_tell)])) : null);
}
