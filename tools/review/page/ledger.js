// Who said what, when, on what was on the table; and the catalogue as it stood on a chosen day.
import { get } from './api.js';
import { button, counted, el, fill, percent } from './dom.js';
import { useKeys } from './keys.js';
import { chooseCapture } from './pair.js';
import { ANSWERS } from './parts.js';
import { go } from './place.js';
import { t } from './words.js';

const KINDS = { catalogue_made: t('catalogue made'), night: t('sheet taken in'), night_facts: t('night described'), capture: t('capture'), correction: t('correction'), photo: t('photo'), examination: t('photo examined'), verdict: t('verdict'), closing: t('capture closed'), reading: t('photo read'),
  label: t('label'), withdrawal: t('taken back'), merge: t('merged'), calibration: t('calibration') };
const CLOSED = { no_animal: t('no animal in it'), not_identifiable: t('not identifiable'), same_capture: t('the same animal in hand as') };

const link = (what, side) => what[`${side}_name`] && el('a', { href: `#/capture/${what[side]}`, title: what[`${side}_night`] }, what[`${side}_name`]);

const changes = (what) => Object.entries(what.changes ?? {}).map(([field, value]) => `${field.replaceAll('_', ' ')}: ${value ?? t('none')}`).join(', ');

function words({ kind, what }) {
  const reason = what.reason ? ` – ${what.reason}` : '';
  if (kind === 'correction') return [link(what, 'capture'), ': ', changes(what), reason];
  if (kind === 'night_facts') return [what.night ? el('a', { href: `#/report/${what.night}` }, [what.night, what.site, what.pond].filter(Boolean).join(', ')) : '', ': ', changes(what), reason];
  if (kind === 'verdict') return [link(what, 'capture'), what.other_name && [' – ', link(what, 'other')], ': ', ANSWERS[what.answer], what.blind ? ' (blind)' : '', reason];
  if (kind === 'closing') return [link(what, 'capture'), ': ', CLOSED[what.as], what.other_name && [' ', link(what, 'other')], reason];
  if (kind === 'reading') return [link(what, 'capture'), what.usable ? t(': usable') : t(': not usable'), reason];
  if (kind === 'label') return [link(what, 'capture'), ': ', what.label ?? ''];
  return [link(what, 'capture') || (what.title ?? what.sheet ?? what.label ?? what.name ?? ''), what.reason ? ` ${what.reason}` : ''];
}

// What stood on the screen when it was said: the candidates with what the program held of them.
function tableOf({ what }) {
  const { table } = what;
  if (!table) return null;
  const more = table.of - table.shown.length;
  return el('details', {}, el('summary', {}, t('On the table: {candidates}', { candidates: counted(table.of, '{n} candidate', '{n} candidates') })),
    table.shown.length ? el('table', {}, el('thead', {}, el('tr', {}, [t('Individual'), t('Capture'), t('Probability'), t('Score'), t('Spots'), ''].map((word) => (word ? el('th', { scope: 'col' }, word) : el('td', {}))))),
      el('tbody', {}, table.shown.map((one) => el('tr', {}, el('td', {}, one.individual_id ? el('a', { href: `#/individual/${one.individual_id}` }, one.individual) : one.individual), el('td', {}, one.capture_name),
        el('td', {}, percent(one.probability)), el('td', {}, one.score.toFixed(1)), el('td', {}, String(one.matched_spots)),
        el('td', {}, one.capture && el('a', { href: `#/pair/${what.capture}/${one.capture}` }, t('See them'))))))) : null,
    more > 0 && el('p.why', {}, t('{more} more.', { more })),
    el('p.why', {}, table.new_probability !== null ? t('New: {new_probability}. ', { new_probability: percent(table.new_probability) }) : '', table.maker ? t('Ranked by {maker}.', { maker: table.maker }) : ''));
}

function more(entry) {
  const { what } = entry;
  return [what.settles?.length > 0 && el('p.why', {}, t('An adjudication. It settles '), what.settles.map((one, i) => [i ? '; ' : '', one.words]), '.'),
    what.in_spite_of?.length > 0 && el('p.why', {}, t('In spite of: '), what.in_spite_of.map((one) => one.sentence).join('; '), ` – ${what.in_spite_of[0].reason}`),
    tableOf(entry)];
}

const FIELDS = ['as_of', 'before', 'kind', 'actor', 'capture', 'individual', 'day'];
const pathOf = (asked) => {
  const parts = FIELDS.map((field) => encodeURIComponent(asked[field] || '-'));
  while (parts.at(-1) === '-') parts.pop();
  return ['ledger', ...parts].join('/');
};

export async function show(root, parts) {
  const asked = Object.fromEntries(FIELDS.map((field, i) => [field, parts[i] && parts[i] !== '-' ? decodeURIComponent(parts[i]) : '']));
  const query = new URLSearchParams(Object.entries(asked).filter(([, value]) => value));
  const ledger = await get(`/api/ledger?${query}`);
  const to = (change) => go(pathOf({ ...asked, before: '', ...change }));
  const date = (id, label, field) => el('span.field', {}, el('label', { for: id }, label), el('input', { type: 'date', id, value: asked[field], onchange: (event) => to({ [field]: event.target.value }) }));
  const select = (id, label, field, options) => {
    const node = el('select', { id, onchange: () => to({ [field]: node.value }) }, el('option', { value: '' }, t('all')), options.map(([value, name]) => el('option', { value, selected: value === asked[field] }, name)));
    return el('span.field', {}, el('label', { for: id }, label), node);
  };
  const last = ledger.entries.at(-1);
  const older = () => ledger.entries.length === ledger.screen && last.position > 1 && go(pathOf({ ...asked, before: String(last.position) }));
  const about = [ledger.capture_name && t('capture {capture_name}', { capture_name: ledger.capture_name }), ledger.individual_name && t('individual {individual_name}', { individual_name: ledger.individual_name })].filter(Boolean);
  const unbound = new URLSearchParams(query);
  unbound.delete('before');
  fill(root,
    el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, t('Ledger')), el('span.places', {}, counted(ledger.newest, '{n} entry', '{n} entries'))),
    el('p.why', {}, t('Head '), el('code.head', {}, ledger.head_hash), t(' vouches for every entry.')),
    el('div.form', {}, date('day', t('As it stood on'), 'as_of'), date('of-day', t('Said on'), 'day'), select('kind', t('Only'), 'kind', Object.entries(KINDS)), select('person', t('By'), 'actor', ledger.people.map((one) => [one, one])),
      button('', t('About a capture…'), () => chooseCapture(t('Entries about a capture'), ({ capture }) => to({ capture, individual: '' })), { class: 'small' }),
      asked.capture && button('', t('About its individual'), async () => to({ individual: (await get(`/api/individual/${asked.capture}`)).id, capture: '' }), { class: 'small' }),
      FIELDS.some((field) => asked[field]) && el('a.act', { href: '#/ledger' }, t('Everything')),
      el('a.act', { href: `/api/ledger/export?${unbound}`, download: 'ledger.csv' }, t('Export as CSV'))),
    about.length > 0 && el('p', { role: 'status' }, t('Only what speaks of {about}.', { about: about.join(t(' and ')) })),
    ledger.stood && el('p', { role: 'status' }, t('At the end of {as_of}: {captures}, {settled} of them settled, {individuals}, {disputes}.', { as_of: ledger.stood.as_of, captures: counted(ledger.stood.captures, '{n} capture', '{n} captures'), settled: ledger.stood.settled, individuals: counted(ledger.stood.individuals, '{n} individual', '{n} individuals'), disputes: counted(ledger.stood.disputes, '{n} dispute', '{n} disputes') })),
    ledger.entries.length ? el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': t('Entries') }, el('table.entries', {}, el('thead', {}, el('tr', {}, ['', t('When'), t('Who'), t('What'), t('Says'), t('Hash')].map((word) => (word ? el(word === t('Hash') ? 'th.hash' : 'th', { scope: 'col' }, word) : el('td', {}))))),
      el('tbody', {}, ledger.entries.map((entry) => el('tr', { class: entry.stands ? null : 'withdrawn' }, el('td.whole', {}, String(entry.position)), el('td.whole', {}, entry.time.slice(0, 19).replace('T', ' ')),
        el('td.whole', {}, entry.actor), el('td.kind', {}, entry.what.settles?.length ? t('adjudication') : KINDS[entry.kind] ?? entry.kind, entry.stands ? '' : t(' (no longer counts)')), el('td.says', {}, el('span.said', {}, words(entry)), more(entry)),
        el('td.hash', { title: entry.hash }, entry.hash.slice(0, 12))))))) : el('p.done', {}, t('No entry is like that.')),
    el('div.actions', {}, ledger.entries.length === ledger.screen && last.position > 1 && button('→', t('Older'), older)));
  useKeys([{ key: 'ArrowRight', label: t('Older entries'), run: older }]);
}
