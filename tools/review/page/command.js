// What a step of the page is on the command line, for who wants to do it there or write it down.
import { el } from './dom.js';

export const command = (...lines) => el('details.command', {}, el('summary', {}, 'The same as a command'),
  ...lines.map((line) => el('code', {}, line)));
