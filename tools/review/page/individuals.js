// Everyone in the catalogue, one screen at a time.
import { get } from './api.js';
import { button, counted, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { go } from './place.js';

export async function show(root, [find = '', fromText = '0'], still) {
  const wanted = decodeURIComponent(find === '-' ? '' : find), from = Number(fromText) || 0;
  const list = await get(`/api/individuals?find=${encodeURIComponent(wanted)}&from=${from}`);
  const input = el('input', { id: 'find', value: wanted, autocomplete: 'off', maxlength: '80' });
  const page = (start) => go(`individuals/${encodeURIComponent(wanted) || '-'}/${start}`);
  const search = (event) => { event?.preventDefault(); if (still()) go(`individuals/${encodeURIComponent(input.value.trim()) || '-'}/0`); };
  fill(root,
    el('div.heading', {}, el('h1', {}, 'Individuals'), el('span.places', {}, counted(list.found, 'individual'))),
    el('form.form', { role: 'search', onsubmit: search }, el('label', { for: 'find' }, el('kbd', {}, '/'), ' Name or alias'), input, el('button', { type: 'submit' }, 'Find')),
    el('ul.rows', {}, list.individuals.map((one, i) => el('li', {}, el('a.row', { href: `#/individual/${one.id}`, 'data-first': i === 0 },
      one.strip ? el('img.thumb', { src: `/strip/${one.strip}`, alt: '', loading: 'lazy', width: '40', height: '128' }) : el('span.thumb.none', {}, 'no strip'),
      el('span.what', {}, el('strong', {}, one.name), one.aliases.length > 0 && el('span.why', {}, `also ${one.aliases.join(', ')}`),
        el('span.why', {}, counted(one.captures, 'capture'), one.sex === 'unknown' ? '' : `, ${one.sex}`), el('span.why', {}, one.first === one.last ? one.first : `${one.first} to ${one.last}`),
        one.disputed && el('span.why.problem', {}, 'in dispute')))))),
    el('div.actions', {}, from > 0 && button('←', 'Before', () => page(Math.max(0, from - list.screen))),
      from + list.screen < list.found && button('→', 'More', () => page(from + list.screen))));
  useKeys([{ key: '/', label: 'Find by name', run: () => input.focus() },
    { key: 'ArrowRight', label: 'More', run: () => from + list.screen < list.found && page(from + list.screen) },
    { key: 'ArrowLeft', label: 'Before', run: () => from > 0 && page(Math.max(0, from - list.screen)) }]);
}
