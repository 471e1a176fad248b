// The night sheet as a grid: what holds for the whole evening on top, a row a capture below, faults in their cells.
import { counted, el } from './dom.js';
import { chosenBar, judgedWords, likelyWords, takesPhotos, thumbnail } from './evening_photos.js';
import { sentence } from './parts.js';
import { sheetWord, t } from './words.js';

const WORDS = { site: t('Site'), pond: t('Pond'), night: t('Night'), licence: t('Licence'), observer: t('Observer'), trap: t('Trap'), latitude: t('Latitude'),
  longitude: t('Longitude'), capture: t('Capture'), sex: t('Sex'), stage: t('Stage'), svl_mm: t('Snout–vent, mm'), total_mm: t('Total, mm'), mass_g: t('Mass, g'),
  released: t('Released'), individual: t('Known as'), notes: t('Notes'), method: t('Method of capture'), effort: t('Effort'), effort_unit: t('Effort in'), weather: t('Weather'),
  air_c: t('Air, °C'), water_c: t('Water, °C'), holder: t('Licence holder') };
const NEEDED = new Set(['site', 'night', 'licence']);
const EVENING = ['site', 'pond', 'night', 'licence', 'observer'], EVENING_MORE = ['trap', 'latitude', 'longitude'];
const DONE = ['method', 'effort', 'effort_unit', 'weather', 'air_c', 'water_c', 'holder'];
const ROW = ['capture', 'sex', 'stage', 'svl_mm', 'mass_g', 'notes'];
const ROW_MORE = ['total_mm', 'released', 'trap', 'individual', 'site', 'pond', 'night', 'licence', 'observer', 'latitude', 'longitude'];
const CHOICES = { sex: ['', 'female', 'male', 'unknown'], stage: ['', 'adult', 'subadult', 'juvenile', 'metamorph'], released: ['', 'yes', 'no'] };
const SHORT = { f: 'female', m: 'male' };

const faultsAt = (page, capture, column) => page.evening.check.faults.filter((one) => one.capture === capture && one.column === column);
// What is right only with a reason, which is asked for where the night is taken in.
const asksAt = (page, capture, column) => page.evening.check.asks.filter((one) => one.capture === capture && one.column === column);

// The same control at every drawing: whoever is in it stays in it.
function inputOf(page, given, listeners) {
  const old = page.inputs.get(given.id);
  if (!old) {
    const node = el('input', { ...given, ...listeners });
    page.inputs.set(given.id, node);
    return node;
  }
  for (const [name, value] of Object.entries(given)) {
    if (value === null || value === false || value === undefined) old.removeAttribute(name);
    else old.setAttribute(name, value);
  }
  old.value = given.value;
  return old;
}

// One cell: its control, and under it what is wrong with it.
function cell(page, capture, column, { value, placeholder = '', label, describe = '' }) {
  const id = `cell-${capture || 'evening'}-${column}`;
  const faults = faultsAt(page, capture, column), said = [...faults, ...asksAt(page, capture, column)];
  const write = (text) => page.act('cells', { cells: [{ capture, column, text: text.trim() }] });
  const told = said.length > 0 && el(faults.length ? 'span.fault' : 'span.ask', { id: `${id}-fault` }, said.map((one) => sentence(one.sentence)).join(' '));
  const given = { id, 'aria-label': label, 'aria-invalid': faults.length > 0 && 'true', 'aria-describedby': said.length > 0 ? `${id}-fault` : describe || null,
    class: faults.length ? 'wrong' : null };
  const choices = CHOICES[column];
  const known = SHORT[value] ?? value;
  // A choice made by letter; what is none of the choices stays visible, to be mended.
  const node = choices
    ? el('select', { ...given, onchange: () => write(node.value), onkeydown: (event) => event.key === 'Enter' && step(event, page, capture, column) }, [...choices, ...(choices.includes(known) ? [] : [known])].map((one) => el('option', { value: one, selected: one === known }, sheetWord(one) || (placeholder || '–'))))
    : inputOf(page, { ...given, type: 'text', value, placeholder, autocomplete: 'off', maxlength: '300', inputmode: /_mm|_g|itude/.test(column) ? 'decimal' : null },
      { onchange: () => write(node.value), onkeydown: (event) => step(event, page, capture, column) });
  return [node, told];
}

// Enter and the arrows go down and up a column, as in any grid.
function step(event, page, capture, column) {
  const by = { Enter: event.shiftKey ? -1 : 1, ArrowDown: 1, ArrowUp: -1 }[event.key];
  if (!by || !capture) return;
  const keys = page.evening.captures.map((one) => one.key);
  const to = document.getElementById(`cell-${keys[keys.indexOf(capture) + by]}-${column}`);
  if (!to) return;
  event.preventDefault();
  to.focus();
  to.select?.();
}

function wholeEvening(page) {
  const field = (column) => {
    const { text, proposed } = page.evening.common[column];
    const hint = `hint-${column}`;
    const from = column === 'night' ? (page.evening.photos.some((one) => one.taken_at) ? t('by the camera’s clock') : t('today')) : column === 'observer' ? t('who is at the page') : t('as last time');
    return el('div.field', {}, el('label', { for: `cell-evening-${column}` }, WORDS[column], NEEDED.has(column) ? '' : el('span.why', {}, t(' (if any)'))),
      cell(page, '', column, { value: text, label: null, describe: proposed && text ? hint : '', placeholder: column === 'night' ? '2024-05-14' : '' }),
      proposed && text && el('span.why', { id: hint }, from));
  };
  const more = EVENING_MORE.some((column) => page.evening.common[column].text || faultsAt(page, '', column).length);
  const done = page.doneOpen || DONE.some((column) => faultsAt(page, '', column).length);
  return el('fieldset.whole', {}, el('legend', {}, t('For the whole evening')),
    EVENING.map(field),
    el('details', { open: done, ontoggle: (event) => { page.doneOpen = event.target.open; } }, el('summary', {}, t('What was done, as the report tells it')), el('div.fields', {}, DONE.map(field))),
    el('details', { open: more || page.moreOpen, ontoggle: (event) => { page.moreOpen = event.target.open; } }, el('summary', {}, t('Trap and coordinates')), el('div.fields', {}, EVENING_MORE.map(field),
      el('p.why', {}, t('Coordinates stay in the catalogue; of reports, the one for the authority alone names them.')))));
}

// Columns that are hidden until they are needed, or asked for.
function columnsOf(page) {
  const { captures, common, check } = page.evening;
  const needed = (column) => captures.some((one) => one.cells[column] !== undefined || (common[column] && one.holds[column] !== undefined && one.holds[column] !== common[column].text))
    || check.faults.some((one) => one.capture && one.column === column);
  return [...ROW, ...ROW_MORE.filter((column) => page.allColumns || needed(column))];
}

function photosCell(page, capture) {
  const photos = capture.photos.map((name) => page.evening.photos.find((one) => one.name === name));
  const faults = page.evening.check.faults.filter((one) => one.capture === capture.key && (one.column === 'photo' || !one.column));
  const usable = photos.some((one) => one.usable), judged = photos.every((one) => one.judged);
  const best = photos.filter((one) => one.likely).sort((a, b) => Math.max(b.likely.probability, b.likely.new_probability) - Math.max(a.likely.probability, a.likely.new_probability))[0];
  return [el('div.shots', {}, photos.map((photo) => thumbnail(page, photo))),
    !usable && judged && photos.length > 0 && el('p.problem', {}, t('No photo of this animal can be matched.')),
    photos.flatMap((photo) => photo.notes.filter((one) => one.blocks).map((one) => el('p.fault', {}, `${photo.name}: ${sentence(one.sentence)}`))),
    best && el('p.why', {}, likelyWords(best)), !best && usable && photos.some((one) => one.looking) && el('p.why', {}, t('comparing…')),
    faults.map((one) => el('p.fault', {}, `${one.photo ? `${one.photo}: ` : ''}${sentence(one.sentence)}`))];
}

function row(page, capture, columns) {
  if (capture.nothing_caught)
    return el('tr', {}, el('td', { colspan: String(columns.length + 1) }, t('Nothing was caught. '), page.evening.check.faults.filter((one) => one.capture === capture.key).map((one) => el('span.fault', {}, sentence(one.sentence))),
      el('button.small', { type: 'button', id: 'something', onclick: () => page.act('nothing', { nothing: false }) }, t('Take this back'))));
  const tr = el('tr', { 'data-capture': capture.key }, el('td.shots-cell', {}, photosCell(page, capture)),
    columns.map((column) => el('td', { 'data-label': WORDS[column], class: `cell at-${column}` }, cell(page, capture.key, column, {
      value: capture.cells[column] ?? '', label: t('{words} of {label}', { words: WORDS[column], label: capture.label }),
      placeholder: column === 'capture' ? capture.label : capture.holds[column] ?? '' }))));
  return takesPhotos(tr, page, capture.key);
}

function leftOut(page) {
  const photos = page.evening.photos.filter((one) => one.left_out);
  if (!photos.length) return null;
  const names = photos.map((one) => one.name);
  return el('section.panel', { 'aria-labelledby': 'left-out' }, el('h2', { id: 'left-out' }, t('Left out: {photos}', { photos: counted(photos.length, '{n} photo', '{n} photos') })),
    el('div.shots', {}, photos.map((photo) => thumbnail(page, photo))),
    el('div.actions', {}, el('button', { type: 'button', id: 'back', onclick: () => page.act('leave_out', { photos: names, out: false }) }, t('Take all back in')),
      el('button', { type: 'button', id: 'for-good', onclick: () => confirm(t('Delete {photos} here for good? Those on the card stay.', { photos: counted(photos.length, '{n} photo', '{n} photos') })) && page.act('remove', { photos: names }) }, t('Delete for good'))));
}

function summary(page) {
  const here = page.evening.photos.filter((one) => !one.left_out);
  const judged = here.filter((one) => one.judged), bad = judged.filter((one) => !one.usable);
  return el('p', { role: 'status', id: 'judged' }, t('{photos} in {captures}', { photos: counted(here.length, '{n} photo', '{n} photos'), captures: counted(page.evening.captures.length, '{n} capture', '{n} captures') }),
    judged.length < here.length ? t(', {judged} looked at so far', { judged: judged.length }) : '', bad.length ? `, ${bad.length} ${judgedWords(bad[0])}` : here.length ? (judged.length < here.length ? t(', those so far can be matched') : t(', all can be matched')) : '', '.');
}

export function drawGrid(page) {
  const { captures, photos, gap_seconds: gap } = page.evening;
  const columns = columnsOf(page);
  const none = !photos.some((one) => !one.left_out) && !captures.length;
  const pause = el('input', { type: 'number', id: 'gap', min: '1', max: '3600', value: String(gap), onchange: () => pause.reportValidity() && page.act('gap', { seconds: Number(pause.value) }) });
  const apart = el('div.apart', {}, t('Drop photos here for a capture of their own'));
  return [el('section', { 'aria-labelledby': 'sheet-heading' }, el('h2', { id: 'sheet-heading' }, t('2  The night sheet')), wholeEvening(page),
    none ? el('div.actions', {}, el('button', { type: 'button', id: 'nothing', onclick: () => page.act('nothing', { nothing: true }) }, t('Nothing was caught tonight'))) : [
      photos.length > 0 && [summary(page),
        el('div.form', {}, el('label', { for: 'gap' }, t('A pause of more than')), pause, el('span', {}, t('seconds parts two animals.')),
          el('label', { for: 'all-columns' }, el('input', { type: 'checkbox', id: 'all-columns', checked: page.allColumns, onchange: (event) => { page.allColumns = event.target.checked; page.draw(); } }), t(' All columns')),
          el('a', { href: '/api/evening/sheet', download: page.evening.sheet }, t('Keep the sheet as CSV'))),
        chosenBar(page)],
      el('div.grid-scroll', { role: 'region', 'aria-label': t('The sheet'), tabindex: '0' }, el('table.grid', {}, el('thead', {}, el('tr', {}, [t('Photos'), ...columns.map((one) => WORDS[one])].map((one) => el('th', { scope: 'col' }, one)))),
        el('tbody', {}, captures.map((one) => row(page, one, columns))))),
      photos.length > 0 && takesPhotos(apart, page, '')]),
  leftOut(page)];
}
