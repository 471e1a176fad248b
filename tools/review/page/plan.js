// A survey to come: how many nights and traps it takes to estimate numbers within a wanted error.
import { get } from './api.js';
import { command, folder, word } from './command.js';
import { el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { go } from './place.js';
import { asPart, asQuery, choicesIn, placeWords } from './query.js';
import { t } from './words.js';

const share = (value) => (value === null ? t('not known') : `${Math.round(100 * value)}\u00a0%`);
const FIELDS = [
  ['animals', t('How many animals there may be'), t('empty: as this catalogue’s nights say'), 'decimal'],
  ['chance', t('Chance of one animal being caught on one night'), t('empty: as its nights say; else such as 0.2'), 'decimal'],
  ['nights', t('Numbers of nights to try'), '3-8, or 3,5,8', 'text'],
  ['traps_now', t('Traps that give that chance'), t('if traps are to be tried'), 'numeric'],
  ['traps', t('Numbers of traps to try'), '12,24', 'text'],
  ['spread', t('How far animals differ'), t('0: all alike; 1: much'), 'decimal'],
  ['wanted', t('Wanted error'), t('as a share: 0.2'), 'decimal'],
];
const USUAL = { nights: '3-6,8,10', wanted: '0.2' };

function commandOf(wanted, site, pond) {
  const flag = (name) => (wanted[name] ? ` --${name.replace('_', '-')} ${word(wanted[name])}` : '');
  return command(`evet plan ${folder()}${site ? ` --site ${word(site)}` : ''}${pond ? ` --pond ${word(pond)}` : ''}${FIELDS.map(([name]) => flag(name)).join('')}`);
}

function tableOf(plan, withTraps) {
  const head = [t('Nights'), ...(withTraps ? [t('Traps')] : []), t('Chance'), t('Captures'), t('Ever caught'), t('Error'), t('Bias'), t('Interval holds'), t('No estimate'), t('Large sample'), ''];
  return el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': t('Surveys') }, el('table.broad', {}, el('thead', {}, el('tr', {}, head.map((one) => (one ? el('th', { scope: 'col' }, one) : el('td', {}))))),
    el('tbody', {}, plan.rows.map((row) => el('tr', {}, [row.nights, ...(withTraps ? [row.traps] : []), row.chance.toPrecision(2), Math.round(row.captures), share(row.ever_caught), share(row.relative_error),
      share(row.relative_bias), share(row.coverage), share(row.no_estimate), share(row.large_sample_error)].map((value) => el('td', {}, String(value))), el('td', {}, row.enough && el('strong', {}, t('enough'))))))));
}

function answer(plan, withTraps) {
  const chart = URL.createObjectURL(new Blob([plan.chart], { type: 'image/svg+xml' }));
  return [el('p', { role: 'status' }, el('strong', {}, plan.says)),
    el('p.why', {}, t('Planned for {animals} animals, each caught on a night with a chance of {toprecision}; {draws} surveys drawn for each row. The error is that of the estimate against the truth, root mean square, as a share of it.', { animals: Math.round(plan.animals), toprecision: plan.chance.toPrecision(3), draws: plan.draws })),
    el('div.plot', {}, el('img.chart', { src: chart, alt: t('Error against nights; the table below has every figure'), onload: () => URL.revokeObjectURL(chart) })),
    tableOf(plan, withTraps),
    el('details', {}, el('summary', {}, t('What is assumed')), el('ul', {}, plan.assumptions.map((one) => el('li', {}, one))), el('p.why', {}, plan.source)),
    el('p.cautious', {}, t('The licence says how many nights and traps may be set; a plan does not.'))];
}

export async function show(root, [part = ''], still) {
  const asked = choicesIn(part), wanted = { ...USUAL, ...asked };
  const { places } = await get('/api/population');
  const [site, pond] = asked.place ? JSON.parse(asked.place) : ['', ''];
  const chooser = el('select', { id: 'plan-place', name: 'place' }, el('option', { value: '' }, t('All places')),
    places.map((one) => el('option', { value: JSON.stringify([one.site, one.pond]), selected: one.site === site && one.pond === pond }, placeWords(one))));
  const form = el('form.facts-form', { onsubmit: (event) => {
    event.preventDefault();
    go(`plan/${asPart({ ...Object.fromEntries([...new FormData(form)].map(([key, value]) => [key, value.trim()])), asked: 'yes' })}`);
  } }, el('div.fields', {}, FIELDS.map(([name, words, hint, mode]) => el('div.field', {}, el('label', { for: `plan-${name}` }, words),
    el('input', { id: `plan-${name}`, name, value: wanted[name] ?? '', inputmode: mode, autocomplete: 'off', maxlength: '40', 'aria-describedby': `plan-hint-${name}` }), el('span.why', { id: `plan-hint-${name}` }, hint))),
  el('div.field', {}, el('label', { for: 'plan-place' }, t('Nights of')), chooser)),
  el('div.actions', {}, el('button.main', { type: 'submit' }, t('Plan'))));
  const out = el('div');
  fill(root, el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, t('Plan a survey')), el('a.small', { href: '#/population' }, t('Population'))), form, out, commandOf(wanted, site, pond));
  useKeys([]);
  if (!asked.asked) return;
  fill(out, el('p.waiting', { role: 'status' }, t('Drawing surveys…')));
  const query = asQuery({ ...Object.fromEntries(FIELDS.map(([name]) => [name, wanted[name]])), site, pond });
  get(`/api/plan?${query}`).then((plan) => still() && fill(out, answer(plan, Boolean(wanted.traps))),
    (error) => still() && fill(out, el('p.problem', { role: 'alert' }, error.message)));
}
