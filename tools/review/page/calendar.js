// The nights that were worked, a year at a time: with a catch, without one, and what is still open.
import { get } from './api.js';
import { counted, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { go } from './place.js';
import { asPart, choicesIn, placeWords } from './query.js';

const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'];
const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

function inWords(nights) {
  const captures = nights.reduce((sum, one) => sum + one.captures, 0), open = nights.reduce((sum, one) => sum + one.open, 0);
  return `${captures ? counted(captures, 'capture') : 'nothing caught'}${open ? `, ${open} open` : ''}${nights.length > 1 ? `, ${nights.length} places` : ''}`;
}

function month(year, number, byDate) {
  const first = new Date(Date.UTC(year, number, 1)), days = new Date(Date.UTC(year, number + 1, 0)).getUTCDate();
  const cells = [...Array((first.getUTCDay() + 6) % 7).fill(null), ...Array.from({ length: days }, (_, i) => i + 1)];
  while (cells.length % 7) cells.push(null);
  const cell = (day) => {
    if (!day) return el('td', {});
    const date = `${year}-${String(number + 1).padStart(2, '0')}-${String(day).padStart(2, '0')}`, nights = byDate.get(date);
    if (!nights) return el('td', {}, String(day));
    const open = nights.some((one) => one.open), caught = nights.some((one) => one.captures);
    return el('td', {}, el('a', { href: caught ? `#/night/${date}` : `#/report/${date}`, class: `worked ${open ? 'open' : caught ? 'caught' : 'empty'}`, 'aria-label': `${day} ${MONTHS[number]} ${year}: ${inWords(nights)}`, title: inWords(nights) },
      String(day), el('b', {}, caught ? String(nights.reduce((sum, one) => sum + one.captures, 0)) : '–')));
  };
  return el('table.month', {}, el('caption', {}, MONTHS[number]), el('thead', {}, el('tr', {}, DAYS.map((day) => el('th', { scope: 'col' }, day)))),
    el('tbody', {}, Array.from({ length: cells.length / 7 }, (_, week) => el('tr', {}, cells.slice(7 * week, 7 * week + 7).map(cell)))));
}

function list(nights) {
  return el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': 'Nights of the year' }, el('table.broad', {}, el('thead', {}, el('tr', {}, ['Night', 'Place', 'Captures', 'New', 'Individuals', 'Open', 'Report'].map((word) => el('th', { scope: 'col' }, word)))),
    el('tbody', {}, nights.map((one) => el('tr', {}, el('td.whole', {}, one.captures ? el('a', { href: `#/night/${one.night}` }, one.night) : one.night), el('td', {}, placeWords(one)),
      [one.captures || 'nothing caught', one.new, one.individuals, one.open].map((value) => el('td', {}, String(value))),
      el('td', {}, el('a', { href: `#/report/${one.night}/${asPart({ site: one.site, pond: one.pond })}`, 'aria-label': `Report of ${one.night}, ${placeWords(one)}` }, 'Report')))))));
}

export async function show(root, [part = '']) {
  const wanted = choicesIn(part), { nights } = await get('/api/calendar');
  const years = [...new Set(nights.map((one) => one.night.slice(0, 4)))], year = years.includes(wanted.year) ? wanted.year : years.at(-1);
  const heading = el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, year ? `Nights of ${year}` : 'Nights'));
  useKeys([]);
  if (!year) return fill(root, heading, el('p', {}, 'No night has been taken in yet.'));
  const places = [...new Map(nights.map((one) => [JSON.stringify([one.site, one.pond]), one])).entries()];
  const place = places.some(([key]) => key === wanted.place) ? wanted.place : '';
  const shown = nights.filter((one) => one.night.startsWith(`${year}-`) && (!place || JSON.stringify([one.site, one.pond]) === place));
  const at = years.indexOf(year), turn = (to) => go(`calendar/${asPart({ year: to, place })}`);
  const chooser = el('select', { 'aria-label': 'Place', onchange: () => go(`calendar/${asPart({ year, place: chooser.value })}`) },
    el('option', { value: '' }, 'All places'), places.map(([key, one]) => el('option', { value: key, selected: key === place }, placeWords(one))));
  heading.append(chooser);
  if (at > 0) heading.append(el('button', { type: 'button', onclick: () => turn(years[at - 1]) }, `← ${years[at - 1]}`));
  if (at < years.length - 1) heading.append(el('button', { type: 'button', onclick: () => turn(years[at + 1]) }, `${years[at + 1]} →`));
  const byDate = new Map();
  for (const one of shown) byDate.set(one.night, [...(byDate.get(one.night) ?? []), one]);
  const months = [...new Set(shown.map((one) => Number(one.night.slice(5, 7)) - 1))];
  const first = Math.min(...months), last = Math.max(...months);
  fill(root, heading,
    el('p', {}, `${counted(byDate.size, 'night')} worked, ${counted(shown.filter((one) => !one.captures).length, 'visit')} without a catch, ${counted(shown.reduce((sum, one) => sum + one.open, 0), 'capture')} open. A number is that of captures; – is a night without a catch.`),
    el('p.legend', {}, el('span.worked.caught', {}, 'settled'), ' ', el('span.worked.open', {}, 'something open'), ' ', el('span.worked.empty', {}, 'worked, nothing caught')),
    el('div.months', {}, shown.length ? Array.from({ length: last - first + 1 }, (_, i) => month(Number(year), first + i, byDate)) : el('p', {}, 'No night there in this year.')),
    el('h2', {}, 'As a table'), list(shown));
  useKeys([at > 0 && { key: 'ArrowLeft', label: 'The year before', run: () => turn(years[at - 1]) },
    at < years.length - 1 && { key: 'ArrowRight', label: 'The year after', run: () => turn(years[at + 1]) }].filter(Boolean));
}
