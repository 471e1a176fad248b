// What a step of the page is on the command line, for who wants to do it there or write it down.
import { session } from './api.js';
import { el } from './dom.js';
import { t } from './words.js';

export const command = (...lines) => commandBut('', ...lines);
// `but`: what the command does otherwise; may be empty.
export const commandBut = (but, ...lines) => el('details.command', {}, el('summary', {}, t('The same as a command')),
  ...lines.map((line) => el('code', {}, line)), but && el('p.why', {}, but));

// As a shell takes it, whatever is in it.
export const word = (text) => (/^[\w./:@,+-]+$/.test(text) ? text : `'${String(text).replaceAll('\'', '\'\\\'\'')}'`);
export const folder = () => word(session.hello.folder || 'CATALOGUE');
export const by = () => `--by ${word(session.reader)}`;

// Of whole pages; what a page does with one capture or photo it says itself.
const OF_PAGES = {
  night: ([night]) => {
    const which = night ? ` --night ${night}` : '';
    return [`evet rank ${folder()}${which}`, `evet rank ${folder()}${which} --accept ${by()}`];
  },
  individuals: () => [`evet individuals ${folder()}`],
  population: () => [`evet estimate ${folder()}`],
  calendar: () => [`evet histories ${folder()}`],
  map: () => [`evet share ${folder()} --species "Genus species" --exact --out FOLDER`],
  growth: () => [`evet individuals ${folder()} --json`],
  ledger: () => [`evet audit ${folder()}`],
};
// And of pages that do what a command does only in part.
const IN_PART = {
  second: () => [t('Says the same, but a command knows the captures by name: a blind reading is made here alone.'), `evet verdict ${folder()} CAPTURE same OTHER ${by()} --reason "WHY"`],
  disputes: () => [t('Lists what is in dispute; a third reader decides it here alone.'), `evet audit ${folder()}`],
};
export const commandsOf = (page, rest) => (OF_PAGES[page] && command(...OF_PAGES[page](rest))) ?? (IN_PART[page] && commandBut(...IN_PART[page](rest)));

export const verdictCommand = (capture, answer, other, reason) =>
  `evet verdict ${folder()} ${word(capture)} ${answer.replaceAll('_', '-')}${other ? ` ${word(other)}` : ''} ${by()}${reason ? ` --reason ${word(reason)}` : ''}`;
