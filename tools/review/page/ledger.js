// Who said what, when, on what was on the table; and the catalogue as it stood on a chosen day.
import { get } from './api.js';
import { button, counted, el, fill, percent } from './dom.js';
import { useKeys } from './keys.js';
import { chooseCapture } from './pair.js';
import { ANSWERS } from './parts.js';
import { go } from './place.js';

const KINDS = { catalogue_made: 'catalogue made', night: 'sheet taken in', night_facts: 'night described', capture: 'capture', correction: 'correction', photo: 'photo', examination: 'photo examined', verdict: 'verdict', closing: 'capture closed', reading: 'photo read',
  label: 'label', withdrawal: 'taken back', merge: 'merged', calibration: 'calibration' };
const CLOSED = { no_animal: 'no animal in it', not_identifiable: 'not identifiable', same_capture: 'the same animal in hand as' };

const link = (what, side) => what[`${side}_name`] && el('a', { href: `#/capture/${what[side]}`, title: what[`${side}_night`] }, what[`${side}_name`]);

const changes = (what) => Object.entries(what.changes ?? {}).map(([field, value]) => `${field.replaceAll('_', ' ')}: ${value ?? 'none'}`).join(', ');

function words({ kind, what }) {
  const reason = what.reason ? ` – ${what.reason}` : '';
  if (kind === 'correction') return [link(what, 'capture'), ': ', changes(what), reason];
  if (kind === 'night_facts') return [what.night ? el('a', { href: `#/report/${what.night}` }, [what.night, what.site, what.pond].filter(Boolean).join(', ')) : '', ': ', changes(what), reason];
  if (kind === 'verdict') return [link(what, 'capture'), what.other_name && [' – ', link(what, 'other')], ': ', ANSWERS[what.answer], what.blind ? ' (blind)' : '', reason];
  if (kind === 'closing') return [link(what, 'capture'), ': ', CLOSED[what.as], what.other_name && [' ', link(what, 'other')], reason];
  if (kind === 'reading') return [link(what, 'capture'), what.usable ? ': usable' : ': not usable', reason];
  if (kind === 'label') return [link(what, 'capture'), ': ', what.label ?? ''];
  return [link(what, 'capture') || (what.title ?? what.sheet ?? what.label ?? what.name ?? ''), what.reason ? ` ${what.reason}` : ''];
}

// What stood on the screen when it was said: the candidates with what the program held of them.
function tableOf({ what }) {
  const { table } = what;
  if (!table) return null;
  const more = table.of - table.shown.length;
  return el('details', {}, el('summary', {}, `On the table: ${counted(table.of, 'candidate')}`),
    table.shown.length ? el('table', {}, el('thead', {}, el('tr', {}, ['Individual', 'Capture', 'Probability', 'Score', 'Spots', ''].map((word) => (word ? el('th', { scope: 'col' }, word) : el('td', {}))))),
      el('tbody', {}, table.shown.map((one) => el('tr', {}, el('td', {}, one.individual_id ? el('a', { href: `#/individual/${one.individual_id}` }, one.individual) : one.individual), el('td', {}, one.capture_name),
        el('td', {}, percent(one.probability)), el('td', {}, one.score.toFixed(1)), el('td', {}, String(one.matched_spots)),
        el('td', {}, one.capture && el('a', { href: `#/pair/${what.capture}/${one.capture}` }, 'See them')))))) : null,
    more > 0 && el('p.why', {}, `${more} more.`),
    el('p.why', {}, table.new_probability !== null ? `New: ${percent(table.new_probability)}. ` : '', table.maker ? `Ranked by ${table.maker}.` : ''));
}

function more(entry) {
  const { what } = entry;
  return [what.settles?.length > 0 && el('p.why', {}, 'An adjudication. It settles ', what.settles.map((one, i) => [i ? '; ' : '', one.words]), '.'),
    what.in_spite_of?.length > 0 && el('p.why', {}, 'In spite of: ', what.in_spite_of.map((one) => one.sentence).join('; '), ` – ${what.in_spite_of[0].reason}`),
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
    const node = el('select', { id, onchange: () => to({ [field]: node.value }) }, el('option', { value: '' }, 'all'), options.map(([value, name]) => el('option', { value, selected: value === asked[field] }, name)));
    return el('span.field', {}, el('label', { for: id }, label), node);
  };
  const last = ledger.entries.at(-1);
  const older = () => ledger.entries.length === ledger.screen && last.position > 1 && go(pathOf({ ...asked, before: String(last.position) }));
  const about = [ledger.capture_name && `capture ${ledger.capture_name}`, ledger.individual_name && `individual ${ledger.individual_name}`].filter(Boolean);
  const unbound = new URLSearchParams(query);
  unbound.delete('before');
  fill(root,
    el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, 'Ledger'), el('span.places', {}, counted(ledger.newest, 'entry', 'entries'))),
    el('p.why', {}, 'Head ', el('code.head', {}, ledger.head_hash), ' vouches for every entry.'),
    el('div.form', {}, date('day', 'As it stood on', 'as_of'), date('of-day', 'Said on', 'day'), select('kind', 'Only', 'kind', Object.entries(KINDS)), select('person', 'By', 'actor', ledger.people.map((one) => [one, one])),
      button('', 'About a capture…', () => chooseCapture('Entries about a capture', ({ capture }) => to({ capture, individual: '' })), { class: 'small' }),
      asked.capture && button('', 'About its individual', async () => to({ individual: (await get(`/api/individual/${asked.capture}`)).id, capture: '' }), { class: 'small' }),
      FIELDS.some((field) => asked[field]) && el('a.act', { href: '#/ledger' }, 'Everything'),
      el('a.act', { href: `/api/ledger/export?${unbound}`, download: 'ledger.csv' }, 'Export as CSV')),
    about.length > 0 && el('p', { role: 'status' }, `Only what speaks of ${about.join(' and ')}.`),
    ledger.stood && el('p', { role: 'status' }, `At the end of ${ledger.stood.as_of}: ${counted(ledger.stood.captures, 'capture')}, ${ledger.stood.settled} of them settled, ${counted(ledger.stood.individuals, 'individual')}, ${counted(ledger.stood.disputes, 'dispute')}.`),
    ledger.entries.length ? el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': 'Entries' }, el('table.entries', {}, el('thead', {}, el('tr', {}, ['', 'When', 'Who', 'What', 'Says', 'Hash'].map((word) => (word ? el(word === 'Hash' ? 'th.hash' : 'th', { scope: 'col' }, word) : el('td', {}))))),
      el('tbody', {}, ledger.entries.map((entry) => el('tr', { class: entry.stands ? null : 'withdrawn' }, el('td.whole', {}, String(entry.position)), el('td.whole', {}, entry.time.slice(0, 19).replace('T', ' ')),
        el('td.whole', {}, entry.actor), el('td.kind', {}, entry.what.settles?.length ? 'adjudication' : KINDS[entry.kind] ?? entry.kind, entry.stands ? '' : ' (no longer counts)'), el('td.says', {}, el('span.said', {}, words(entry)), more(entry)),
        el('td.hash', { title: entry.hash }, entry.hash.slice(0, 12))))))) : el('p.done', {}, 'No entry is like that.'),
    el('div.actions', {}, ledger.entries.length === ledger.screen && last.position > 1 && button('→', 'Older', older)));
  useKeys([{ key: 'ArrowRight', label: 'Older entries', run: older }]);
}
