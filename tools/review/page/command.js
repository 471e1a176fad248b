// What a step of the page is on the command line, for who wants to do it there or write it down.
import { session } from './api.js';
import { el } from './dom.js';

export const command = (...lines) => el('details.command', {}, el('summary', {}, 'The same as a command'),
  ...lines.map((line) => el('code', {}, line)));

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
  ledger: () => [`evet audit ${folder()}`],
};
export const commandsOf = (page, rest) => OF_PAGES[page] && command(...OF_PAGES[page](rest));

export const verdictCommand = (capture, answer, other, reason) =>
  `evet verdict ${folder()} ${word(capture)} ${answer.replaceAll('_', '-')}${other ? ` ${word(other)}` : ''} ${by()}${reason ? ` --reason ${word(reason)}` : ''}`;
