// Who said what, when; and the catalogue as it stood on a chosen day.
import { get } from './api.js';
import { button, counted, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { ANSWERS } from './parts.js';
import { go } from './place.js';

const KINDS = { catalogue_made: 'catalogue made', night: 'sheet taken in', capture: 'capture', correction: 'correction', photo: 'photo', examination: 'photo examined', verdict: 'verdict', reading: 'photo read',
  label: 'label', withdrawal: 'taken back', merge: 'merged', calibration: 'calibration' };

function words(entry) {
  const { what } = entry;
  if (entry.kind === 'verdict') return [[what.capture_name, what.other_name].filter(Boolean).join(' – '), ': ', ANSWERS[what.answer], what.blind ? ' (blind)' : '', what.reason ? ` – ${what.reason}` : ''];
  if (entry.kind === 'reading') return [what.capture_name ?? '', what.usable ? ': usable' : ': not usable', what.reason ? ` – ${what.reason}` : ''];
  if (entry.kind === 'label') return [what.capture_name ?? '', ': ', what.label ?? ''];
  return [what.capture_name ?? what.title ?? what.sheet ?? what.label ?? what.name ?? '', what.reason ? ` ${what.reason}` : ''];
}

export async function show(root, [asOf = '-', before = '', kind = '']) {
  const day = asOf === '-' ? '' : asOf;
  const ledger = await get(`/api/ledger?as_of=${encodeURIComponent(day)}&before=${before === '-' ? '' : before}&kind=${encodeURIComponent(kind)}`);
  const input = el('input', { type: 'date', id: 'day', value: day });
  const kinds = el('select', { id: 'kind', onchange: () => go(`ledger/${asOf}/-/${kinds.value}`) }, el('option', { value: '' }, 'everything'),
    Object.entries(KINDS).map(([value, name]) => el('option', { value, selected: value === kind }, name)));
  const last = ledger.entries.at(-1);
  const older = () => last && last.position > 1 && go(`ledger/${asOf}/${last.position}/${kind}`);
  fill(root,
    el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, 'Ledger'), el('span.places', {}, `${counted(ledger.newest, 'entry', 'entries')}, head ${ledger.head_hash.slice(0, 16)}…`)),
    el('form.form', { onsubmit: (event) => { event.preventDefault(); go(`ledger/${input.value || '-'}/-/${kind}`); } },
      el('label', { for: 'day' }, 'As it stood on'), input, el('button', { type: 'submit' }, 'Show'), el('label', { for: 'kind' }, 'Only'), kinds),
    ledger.stood && el('p', { role: 'status' }, `At the end of ${ledger.stood.as_of}: ${counted(ledger.stood.captures, 'capture')}, ${ledger.stood.settled} of them settled, ${counted(ledger.stood.individuals, 'individual')}, ${counted(ledger.stood.disputes, 'dispute')}.`),
    el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': 'Entries' }, el('table.entries', {}, el('thead', {}, el('tr', {}, ['', 'When', 'Who', 'What', 'Says', 'Hash'].map((word) => (word ? el(word === 'Hash' ? 'th.hash' : 'th', { scope: 'col' }, word) : el('td', {}))))),
      el('tbody', {}, ledger.entries.map((entry) => el('tr', { class: entry.stands ? null : 'withdrawn' }, el('td.whole', {}, String(entry.position)), el('td.whole', {}, entry.time.slice(0, 19).replace('T', ' ')),
        el('td.whole', {}, entry.actor), el('td.kind', {}, KINDS[entry.kind] ?? entry.kind, entry.stands ? '' : ' (no longer counts)'), el('td.says', {}, words(entry)), el('td.hash', {}, entry.hash)))))),
    el('div.actions', {}, last && last.position > 1 && button('→', 'Older', older)));
  useKeys([{ key: 'ArrowRight', label: 'Older entries', run: older }]);
}
