// Everyone side by side, like beside like: to leaf through here, or to print.
import { get } from './api.js';
import { command, folder } from './command.js';
import { counted, el, fill, whole } from './dom.js';
import { useKeys } from './keys.js';
import { sheetWord, t } from './words.js';

export async function show(root) {
  const { individuals } = await get('/api/catalogue');
  fill(root, el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, t('Catalogue of strips')), el('span.places', {}, counted(individuals.length, '{n} individual', '{n} individuals')),
    individuals.length > 0 && [el('a', { href: '/catalogue', target: '_blank', rel: 'noopener' }, t('Open to print')), el('a.small', { href: '/catalogue?save=yes' }, t('Save as a file'))]),
  el('p.why', {}, t('Like patterns lie side by side. It is a first look: who is who follows from verdicts alone.')),
  individuals.length ? el('ul.sheet', {}, individuals.map((one) => el('li', {}, el('a', { href: `#/individual/${one.id}` },
    one.strip ? el('img', { src: `/strip/${one.strip}`, alt: t('Strip of {name}', { name: one.name }), loading: 'lazy', width: '120', height: '384' }) : el('span.thumb.none', {}, t('no strip')),
    el('strong', {}, one.name)), el('span.why', {}, [one.sex !== 'unknown' && sheetWord(one.sex), counted(one.captures, '{n} capture', '{n} captures'), whole(one.last)].filter(Boolean).join(', '))))) : el('p', {}, t('Nobody is known yet: settle a night first.')));
  root.append(command(`evet individuals ${folder()} --strips strips.html`));
  useKeys([]);
}
