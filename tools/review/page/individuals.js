// Everyone in the catalogue, one screen at a time: by name, sex, place, season and size.
import { get } from './api.js';
import { button, counted, el, fill, whole } from './dom.js';
import { useKeys } from './keys.js';
import { go } from './place.js';
import { asPart, asQuery, choicesIn, placeWords } from './query.js';
import { sheetWord, t } from './words.js';

const SEXES = ['female', 'male', 'unknown'];

function card(one, first) {
  return el('li', {}, el('a.row', { href: `#/individual/${one.id}`, 'data-first': first },
    one.strip ? el('img.thumb', { src: `/strip/${one.strip}`, alt: '', loading: 'lazy', width: '40', height: '128' }) : el('span.thumb.none', {}, t('no strip')),
    el('span.what', {}, el('strong', {}, one.name), one.aliases.length > 0 && el('span.why', {}, t('also {aliases}', { aliases: one.aliases.join(', ') })),
      el('span.why', {}, [counted(one.captures, '{n} capture', '{n} captures'), one.sex !== 'unknown' && sheetWord(one.sex), one.svl_mm && t('{svl_mm} mm', { svl_mm: one.svl_mm })].filter(Boolean).join(', ')),
      el('span.why', {}, one.first === one.last ? whole(one.first) : t('{first} to {last}', { first: whole(one.first), last: whole(one.last) })),
      one.disputed && el('span.why.problem', {}, t('in dispute')))));
}

function filters(list, wanted, search) {
  const option = (value, words, chosen) => el('option', { value, selected: value === chosen }, words);
  const labelled = (id, words, input) => el('span.field', {}, el('label', { for: id }, ...words), input);
  const find = el('input', { id: 'find', name: 'find', value: wanted.find ?? '', autocomplete: 'off', maxlength: '80' });
  const place = wanted.site ? JSON.stringify([wanted.site, wanted.pond ?? '']) : '';
  const form = el('form.form', { role: 'search', onsubmit: (event) => { event.preventDefault(); search(new FormData(form)); } },
    labelled('find', [el('kbd', {}, '/'), t(' Name or alias')], find),
    labelled('sex', [t('Sex')], el('select', { id: 'sex', name: 'sex' }, option('', t('any'), wanted.sex), SEXES.map((one) => option(one, sheetWord(one), wanted.sex)))),
    labelled('where', [t('Met at')], el('select', { id: 'where', name: 'place' }, option('', t('any place'), place),
      list.choices.places.map((one) => option(JSON.stringify([one.site, one.pond]), placeWords(one), place)))),
    labelled('season', [t('Season')], el('select', { id: 'season', name: 'season' }, option('', t('any year'), wanted.season), list.choices.seasons.map((one) => option(one, one, wanted.season)))),
    labelled('svl_from', [t('SVL from, mm')], el('input.number', { id: 'svl_from', name: 'svl_from', type: 'number', min: '0', step: 'any', value: wanted.svl_from ?? '' })),
    labelled('svl_to', [t('to, mm')], el('input.number', { id: 'svl_to', name: 'svl_to', type: 'number', min: '0', step: 'any', value: wanted.svl_to ?? '' })),
    el('button', { type: 'submit' }, t('Find')), Object.keys(wanted).some((key) => key !== 'from') && el('a.small', { href: '#/individuals' }, t('Everyone')));
  return { form, find };
}

export async function show(root, [part = ''], still) {
  const wanted = choicesIn(part), from = Number(wanted.from) || 0;
  const list = await get(`/api/individuals?${asQuery(wanted)}`);
  const page = (start) => go(`individuals/${asPart({ ...wanted, from: start || '' })}`);
  const search = (data) => {
    if (!still()) return;
    const { place, ...others } = Object.fromEntries([...data].map(([key, value]) => [key, value.trim()]));
    const [site, pond] = place ? JSON.parse(place) : [];
    go(`individuals/${asPart({ ...others, site, pond })}`);
  };
  const { form, find } = filters(list, wanted, search);
  const shown = list.found === list.of ? counted(list.found, '{n} individual', '{n} individuals') : t('{found} of {individuals}', { found: list.found, individuals: counted(list.of, '{n} individual', '{n} individuals') });
  fill(root,
    el('div.heading', {}, el('h1', { tabindex: '-1' }, t('Individuals')), el('span.places', { role: 'status' }, shown),
      el('a.small', { href: '#/strips' }, t('Catalogue of strips')), el('a.small', { href: '#/growth' }, t('Growth'))),
    form,
    list.individuals.length ? el('ul.rows', {}, list.individuals.map((one, i) => card(one, i === 0))) : el('p', {}, list.of ? t('Nobody fits all of that.') : t('Nobody is known yet: settle a night first.')),
    el('div.actions', {}, from > 0 && button('←', t('Before'), () => page(Math.max(0, from - list.screen))),
      from + list.screen < list.found && button('→', t('More'), () => page(from + list.screen))));
  useKeys([{ key: '/', label: t('Find by name'), run: () => find.focus() },
    { key: 'ArrowRight', label: t('More'), run: () => from + list.screen < list.found && page(from + list.screen) },
    { key: 'ArrowLeft', label: t('Before'), run: () => from > 0 && page(Math.max(0, from - list.screen)) }]);
}
