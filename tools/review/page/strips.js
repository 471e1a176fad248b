// Everyone side by side, like beside like: to leaf through here, or to print.
import { get } from './api.js';
import { command, folder } from './command.js';
import { counted, el, fill, whole } from './dom.js';
import { useKeys } from './keys.js';

export async function show(root) {
  const { individuals } = await get('/api/catalogue');
  fill(root, el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, 'Catalogue of strips'), el('span.places', {}, counted(individuals.length, 'individual')),
    individuals.length > 0 && [el('a', { href: '/catalogue', target: '_blank', rel: 'noopener' }, 'Open to print'), el('a.small', { href: '/catalogue?save=yes' }, 'Save as a file')]),
  el('p.why', {}, 'Like patterns lie side by side. It is a first look: who is who follows from verdicts alone.'),
  individuals.length ? el('ul.sheet', {}, individuals.map((one) => el('li', {}, el('a', { href: `#/individual/${one.id}` },
    one.strip ? el('img', { src: `/strip/${one.strip}`, alt: `Strip of ${one.name}`, loading: 'lazy', width: '120', height: '384' }) : el('span.thumb.none', {}, 'no strip'),
    el('strong', {}, one.name)), el('span.why', {}, [one.sex !== 'unknown' && one.sex, counted(one.captures, 'capture'), whole(one.last)].filter(Boolean).join(', '))))) : el('p', {}, 'Nobody is known yet: settle a night first.'));
  root.append(command(`evet individuals ${folder()} --strips strips.html`));
  useKeys([]);
}
