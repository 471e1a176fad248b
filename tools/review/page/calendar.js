// The nights that were worked, a year at a time: with a catch, without one, and what is still open.
import { get } from './api.js';
import { counted, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { go } from './place.js';
import { asPart, choicesIn, placeWords } from './query.js';
import { t } from './words.js';

const MONTHS = [t('January'), t('February'), t('March'), t('April'), t('May'), t('June'), t('July'), t('August'), t('September'), t('October'), t('November'), t('December')];
const DAYS = [t('Mon'), t('Tue'), t('Wed'), t('Thu'), t('Fri'), t('Sat'), t('Sun')];

function inWords(nights) {
  const captures = nights.reduce((sum, one) => sum + one.captures, 0), open = nights.reduce((sum, one) => sum + one.open, 0);
  return `${captures ? counted(captures, '{n} capture', '{n} captures') : t('nothing caught')}${open ? t(', {open} open', { open }) : ''}${nights.length > 1 ? t(', {nights} places', { nights: nights.length }) : ''}`;
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
  return el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': t('Nights of the year') }, el('table.broad', {}, el('thead', {}, el('tr', {}, [t('Night'), t('Place'), t('Captures'), t('New'), t('Individuals'), t('Open'), t('Report')].map((word) => el('th', { scope: 'col' }, word)))),
    el('tbody', {}, nights.map((one) => el('tr', {}, el('td.whole', {}, one.captures ? el('a', { href: `#/night/${one.night}` }, one.night) : one.night), el('td', {}, placeWords(one)),
      [one.captures || t('nothing caught'), one.new, one.individuals, one.open].map((value) => el('td', {}, String(value))),
      el('td', {}, el('a', { href: `#/report/${one.night}/${asPart({ site: one.site, pond: one.pond })}`, 'aria-label': t('Report of {night}, {one}', { night: one.night, one: placeWords(one) }) }, t('Report'))))))));
}

export async function show(root, [part = '']) {
  const wanted = choicesIn(part), { nights } = await get('/api/calendar');
  const years = [...new Set(nights.map((one) => one.night.slice(0, 4)))], year = years.includes(wanted.year) ? wanted.year : years.at(-1);
  const heading = el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, year ? t('Nights of {year}', { year }) : t('Nights')));
  useKeys([]);
  if (!year) return fill(root, heading, el('p', {}, t('No night has been taken in yet.')));
  const places = [...new Map(nights.map((one) => [JSON.stringify([one.site, one.pond]), one])).entries()];
  const place = places.some(([key]) => key === wanted.place) ? wanted.place : '';
  const shown = nights.filter((one) => one.night.startsWith(`${year}-`) && (!place || JSON.stringify([one.site, one.pond]) === place));
  const at = years.indexOf(year), turn = (to) => go(`calendar/${asPart({ year: to, place })}`);
  const chooser = el('select', { 'aria-label': t('Place'), onchange: () => go(`calendar/${asPart({ year, place: chooser.value })}`) },
    el('option', { value: '' }, t('All places')), places.map(([key, one]) => el('option', { value: key, selected: key === place }, placeWords(one))));
  heading.append(chooser);
  if (at > 0) heading.append(el('button', { type: 'button', onclick: () => turn(years[at - 1]) }, `← ${years[at - 1]}`));
  if (at < years.length - 1) heading.append(el('button', { type: 'button', onclick: () => turn(years[at + 1]) }, `${years[at + 1]} →`));
  const byDate = new Map();
  for (const one of shown) byDate.set(one.night, [...(byDate.get(one.night) ?? []), one]);
  const months = [...new Set(shown.map((one) => Number(one.night.slice(5, 7)) - 1))];
  const first = Math.min(...months), last = Math.max(...months);
  fill(root, heading,
    el('p', {}, t('{nights} worked, {visits} without a catch, {captures} open. A number is that of captures; – is a night without a catch.', { nights: counted(byDate.size, '{n} night', '{n} nights'), visits: counted(shown.filter((one) => !one.captures).length, '{n} visit', '{n} visits'), captures: counted(shown.reduce((sum, one) => sum + one.open, 0), '{n} capture', '{n} captures') })),
    el('p.legend', {}, el('span.worked.caught', {}, t('settled')), ' ', el('span.worked.open', {}, t('something open')), ' ', el('span.worked.empty', {}, t('worked, nothing caught'))),
    el('div.months', {}, shown.length ? Array.from({ length: last - first + 1 }, (_, i) => month(Number(year), first + i, byDate)) : el('p', {}, t('No night there in this year.'))),
    el('h2', {}, t('As a table')), list(shown));
  useKeys([at > 0 && { key: 'ArrowLeft', label: t('The year before'), run: () => turn(years[at - 1]) },
    at < years.length - 1 && { key: 'ArrowRight', label: t('The year after'), run: () => turn(years[at + 1]) }].filter(Boolean));
}
