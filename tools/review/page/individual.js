// One individual's life: every photo in order of time, growth, places, what does not fit, who said so.
import { get } from './api.js';
import { command, folder, word } from './command.js';
import { showPhotos } from './compare.js';
import { button, counted, el, fill } from './dom.js';
import { editable } from './editable.js';
import { useKeys } from './keys.js';
import { ANSWERS } from './parts.js';
import { reload } from './place.js';
import { plot } from './plots.js';
import { sheetWord, t } from './words.js';

const place = (facts) => [facts.site, facts.pond].filter(Boolean).join(', ');

function life(one) {
  const pictures = one.captures.flatMap((capture) => capture.photos.filter((photo) => photo.usable).map((photo) => [capture, photo]));
  return el('div.life', { tabindex: '0', role: 'region', 'aria-label': t('Strips in order of time') }, pictures.map(([capture, photo]) => el('figure', {},
    el('img', { src: `/strip/${photo.photo}`, alt: t('Strip of {night}', { night: capture.facts.night }), width: '120', height: '384', loading: 'lazy' }),
    el('figcaption', {}, capture.facts.night, el('br'), place(capture.facts), el('br'),
      button('', t('Photo'), () => showPhotos([photo.photo]), { class: 'small' })))));
}

const notes = (capture) => editable({ name: t('notes of {name}', { name: capture.facts.name || capture.facts.night }), value: capture.facts.notes ?? '', long: true,
  show: (text) => text, save: (text) => ['/api/notes', { capture: capture.capture, notes: text }] });

// From one measure to the next: how much, and what that is in a year of 365 days.
function growthTable(lengths) {
  const rows = lengths.slice(1).map((later, i) => {
    const earlier = lengths[i], days = (new Date(later.facts.night) - new Date(earlier.facts.night)) / 86_400_000;
    const grown = later.facts.svl_mm - earlier.facts.svl_mm;
    return [t('{night} to {night2}', { night: earlier.facts.night, night2: later.facts.night }), `${days}`, t('{svl_mm} to {svl_mm2}', { svl_mm: earlier.facts.svl_mm, svl_mm2: later.facts.svl_mm }), `${grown > 0 ? '+' : ''}${grown.toFixed(1)}`, days > 0 ? ((grown * 365) / days).toFixed(1) : ''];
  });
  return el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': t('Growth from measure to measure') }, el('table', {}, el('thead', {}, el('tr', {}, [t('Between'), t('Days'), t('SVL, mm'), t('Grown, mm'), t('mm in a year')].map((word) => el('th', { scope: 'col' }, word)))),
    el('tbody', {}, rows.map((row) => el('tr', {}, row.map((value) => el('td', {}, value)))))));
}

function sheet(one) {
  const head = [t('Night'), t('Place'), t('Capture'), t('Sex'), t('Stage'), t('SVL, mm'), t('Mass, g'), t('Notes'), t('Settled by'), ''];
  return el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': t('On the sheets') }, el('table', {}, el('thead', {}, el('tr', {}, head.map((word) => (word ? el('th', { scope: 'col' }, word) : el('td', {}))))),
    el('tbody', {}, one.captures.map((capture, i) => el('tr', {}, [capture.facts.night, place(capture.facts), capture.facts.name, sheetWord(capture.facts.sex), sheetWord(capture.facts.stage),
      capture.facts.svl_mm, capture.facts.mass_g].map((value, k) => el(k ? 'td' : 'td.whole', {}, String(value ?? ''))),
    el('td.says', {}, notes(capture)), el('td', {}, capture.by_program ? t('the program') : t('people')),
    el('td', {}, one.captures.length > 1 && el('a', { href: `#/pair/${capture.capture}/${one.captures[i ? i - 1 : 1].capture}` }, t('Look again'))))))));
}

function verdicts(one) {
  return el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': t('Who said so') }, el('table', {}, el('thead', {}, el('tr', {}, [t('Reader'), t('Says'), t('Of'), t('Reason'), t('When')].map((word) => el('th', { scope: 'col' }, word)))),
    el('tbody', {}, one.verdicts.map((said) => el('tr', { class: said.stands ? null : 'withdrawn' }, [said.reader, ANSWERS[said.answer] + (said.stands ? '' : t(' (no longer counts)')),
      [said.capture_name, said.other_name].filter(Boolean).join(' – '), said.reason, said.time.slice(0, 16).replace('T', ' ')].map((value) => el('td', {}, value)))))));
}

function joinForm(one) {
  const input = el('input', { id: 'join', autocomplete: 'off', maxlength: '80' });
  const found = el('ul', { 'aria-live': 'polite' });
  const search = async (event) => {
    event.preventDefault();
    const list = await get(`/api/individuals?find=${encodeURIComponent(input.value.trim())}`);
    const others = list.individuals.filter((other) => other.id !== one.id).slice(0, 12);
    fill(found, others.length ? others.map((other) => el('li', {}, el('a', { href: `#/pair/${one.captures.at(-1).capture}/${other.id}` }, t('Hold against {name}', { name: other.name })))) : el('li', {}, t('Nobody of that name.')));
  };
  return [el('form.form', { onsubmit: search }, el('label', { for: 'join' }, t('Is it the same as')), input, el('button', { type: 'submit' }, t('Find'))), found];
}

export async function show(root, [id]) {
  const one = await get(`/api/individual/${id}`);
  const lengths = one.captures.filter((capture) => capture.facts.svl_mm);
  const growth = el('div.plot');
  fill(root,
    el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, one.name),
      editable({ name: 'label', value: one.label, show: () => '', save: (text) => ['/api/label', { individual: one.id, label: text }], done: reload }), el('span.places', {}, `${counted(one.captures.length, '{n} capture', '{n} captures')}, ${sheetWord(one.sex)}${one.aliases.length ? t(', also {aliases}', { aliases: one.aliases.join(', ') }) : ''}`)),
    one.disputed && el('p.problem', {}, t('Verdicts on it contradict each other: '), el('a', { href: '#/disputes' }, t('see the dispute'))),
    life(one),
    one.misfits.length ? [el('h2', {}, t('What does not fit')), el('ul', {}, one.misfits.map((words) => el('li.problem', {}, words)))] : null,
    el('h2', {}, t('On the sheets')), el('p.why', {}, t('A verdict splits: look again at a capture, and say that it is different.')), sheet(one),
    lengths.length > 1 && [el('h2', {}, t('Growth')), growth, growthTable(lengths)],
    el('h2', {}, t('Who said so')), verdicts(one), el('h2', {}, t('Join')), joinForm(one), command(`evet individuals ${folder()} ${word(one.name)}`));
  useKeys([]);
  if (lengths.length > 1) {
    const data = lengths.map((capture) => ({ night: new Date(`${capture.facts.night}T00:00:00Z`), svl: capture.facts.svl_mm }));
    plot(growth, (Plot, width) => ({ width, height: 200, marginLeft: 50, y: { label: t('SVL, mm'), nice: true, grid: true }, x: { type: 'utc', label: null },
      marks: [Plot.line(data, { x: 'night', y: 'svl' }), Plot.dot(data, { x: 'night', y: 'svl', fill: 'currentColor', r: 4 })] }),
    t('Snout–vent length from {svl} mm on {night} to {svl2} mm on {night2}', { svl: data[0].svl, night: lengths[0].facts.night, svl2: data.at(-1).svl, night2: lengths.at(-1).facts.night }));
  }
}
