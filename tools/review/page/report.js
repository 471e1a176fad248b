// A night's report: what was done that night is written down here, then the page is opened to print.
import { get } from './api.js';
import { command, folder } from './command.js';
import { button, dateInWords, el, fill } from './dom.js';
import { moveNight } from './move_night.js';
import { useKeys } from './keys.js';
import { say } from './outbox.js';
import { go } from './place.js';
import { asPart, asQuery, choicesIn, placeWords } from './query.js';
import { t } from './words.js';

function factsForm(report) {
  const told = el('span.why', { role: 'status' });
  const inputs = report.fields.map((field) => {
    const long = field.key === 'notes';
    const input = el(long ? 'textarea' : 'input', { id: `fact-${field.key}`, name: field.key, maxlength: '900', autocomplete: 'off',
      'aria-describedby': `hint-${field.key}`, ...(field.number ? { inputmode: 'decimal' } : {}), ...(long ? { rows: '2' } : {}) });
    input.value = field.value;
    return [field, input];
  });
  const keep = async (event) => {
    event.preventDefault();
    const texts = Object.fromEntries(inputs.map(([field, input]) => [field.key, input.value.replace(/\s+/g, ' ').trim()]));
    told.classList.remove('problem');
    told.textContent = t('Saving…');
    try {
      await say('/api/night_facts', { site: report.site, pond: report.pond, night: report.night, texts });
      told.textContent = t('Written down.');
    } catch (error) {
      told.textContent = error.message;
      told.classList.add('problem');
      inputs.find(([field]) => error.message.includes(field.key))?.[1].focus();
    }
  };
  return el('form.facts-form', { onsubmit: keep }, el('h2', {}, t('What was done')),
    el('div.fields', {}, inputs.map(([field, input]) => el('div.field', {}, el('label', { for: input.id }, field.name), input,
      el('span.why', { id: `hint-${field.key}` }, field.hint)))),
    el('div.actions', {}, el('button.main', { type: 'submit' }, t('Write down')), told));
}

function pages(report) {
  const address = (whom, save) => `/report/${report.night}?${asQuery({ site: report.site, pond: report.pond, for: whom, save: save ? 'yes' : '' })}`;
  const links = (whom, words, about) => el('li', {}, el('a', { href: address(whom), target: '_blank', rel: 'noopener' }, words), ' ',
    el('a.small', { href: address(whom, true) }, t('Save as a file')), el('p.why', {}, about));
  return [el('h2', {}, t('To print')),
    el('ul.pages', {},
      report.here ? links('authority', t('For the licensing authority'), t('With the exact place, licence holder and number, a table of every capture and a place to sign. Not for publication.'))
        : el('li', {}, t('The version for the licensing authority names the exact place, and is opened on the machine that keeps the catalogue alone.')),
      links('everybody', t('For everybody'), t('The place is told coarsely; what could give it away, and names of people, are left out.'))),
    el('p.why', {}, t('It opens in a page of its own; print it from there. It takes a moment, since the night is compared afresh.')),
    command(`evet night ${folder()} --night ${report.night} --method "bottle traps"`, `evet report ${folder()} --night ${report.night} --out report.html`, `evet report ${folder()} --night ${report.night} --for everybody --out public.html`)];
}

export async function show(root, [night = '', part = '']) {
  const wanted = choicesIn(part);
  const report = await get(`/api/report${night ? `/${night}` : ''}?${asQuery(wanted)}`);
  useKeys([]);
  if (!report.night) return fill(root, el('h1', { tabindex: '-1', 'data-first': true }, t('Report')), el('p', {}, t('No night has been taken in yet.')));
  const chooser = el('select', { 'aria-label': t('Place'), onchange: () => { const [site, pond] = JSON.parse(chooser.value); go(`report/${report.night}/${asPart({ site, pond })}`); } },
    report.places.map((place) => el('option', { value: JSON.stringify([place.site, place.pond]), selected: place.site === report.site && place.pond === report.pond }, placeWords(place))));
  fill(root, el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, t('Report of {night}', { night: dateInWords(report.night) })),
    report.places.length > 1 ? chooser : el('span.places', {}, placeWords(report)), el('a.small', { href: `#/night/${report.night}` }, t('To the night')), el('a.small', { href: '#/calendar' }, t('Other nights')), button('', t('Wrong date or place…'), () => moveNight(report.night), { class: 'small quiet' })),
  el('div.two-columns', {}, factsForm(report), el('div', {}, pages(report))));
}
