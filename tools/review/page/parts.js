// Small pieces that several pages share.
import { forgetAhead } from './ahead.js';
import { forgetPictures } from './api.js';
import { button, el } from './dom.js';
import { say } from './outbox.js';
import { refreshHello, reload } from './place.js';

export const tableCaption = (words, n) => [words, ' ', el('span.count', {}, String(n))];

async function step(target) {
  if (!target) return;
  await say('/api/take_back', { target: target.target });
  forgetPictures();
  forgetAhead();
  await refreshHello();
  reload();
}

// `state` has what the program says undo and redo would do now.
export function undoButtons(state) {
  return [
    state.undo && button('z', `Undo: ${state.undo.sentence}`, () => step(state.undo), { class: 'quiet' }),
    state.redo && button('y', `Redo: ${state.redo.sentence}`, () => step(state.redo), { class: 'quiet' }),
  ];
}
undoButtons.keys = (state) => [
  { key: 'z', label: 'Undo your last word', run: () => step(state.undo) },
  { key: 'y', label: 'Redo it', run: () => step(state.redo) },
];

const FACTS = [['site', 'site'], ['pond', 'pond'], ['night', 'night'], ['trap', 'trap'], ['sex', 'sex'], ['stage', 'stage'],
  ['svl_mm', 'snout–vent length, mm'], ['total_mm', 'total length, mm'], ['mass_g', 'mass, g'], ['observer', 'observer'],
  ['individual', 'known as'], ['notes', 'notes']];

export function factsList(facts) {
  const known = FACTS.filter(([field]) => facts[field] !== undefined && facts[field] !== '' && facts[field] !== null);
  return el('dl.facts', {}, known.flatMap(([field, words]) => [el('dt', {}, words), el('dd', {}, String(facts[field]))]));
}

// What is wrong with a photo, a line each.
export const notesOf = (photo) => photo.notes.flatMap((words) => [sentence(words), el('br')]);
export const sentence = (words) => `${words[0].toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? '' : '.'}`;

export const ANSWERS = { same: 'same', different: 'different', cannot_tell: 'cannot tell', new: 'new' };
