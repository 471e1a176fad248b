// Small pieces that several pages share.
import { forgetAhead } from './ahead.js';
import { forgetPictures } from './api.js';
import { button, el } from './dom.js';
import { say } from './outbox.js';
import { refreshHello, reload } from './place.js';
import { sheetWord, t } from './words.js';

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
    state.undo && button('z', t('Undo: {sentence}', { sentence: state.undo.sentence }), () => step(state.undo), { class: 'quiet' }),
    state.redo && button('y', t('Redo: {sentence}', { sentence: state.redo.sentence }), () => step(state.redo), { class: 'quiet' }),
  ];
}
undoButtons.keys = (state) => [
  { key: 'z', label: t('Undo your last word'), run: () => step(state.undo) },
  { key: 'y', label: t('Redo it'), run: () => step(state.redo) },
];

const FACTS = [['site', t('site')], ['pond', t('pond')], ['night', t('night')], ['trap', t('trap')], ['sex', t('sex')], ['stage', t('stage')],
  ['svl_mm', t('snout–vent length, mm')], ['total_mm', t('total length, mm')], ['mass_g', t('mass, g')], ['observer', t('observer')],
  ['individual', t('known as')], ['notes', t('notes')]];

export function factsList(facts) {
  const known = FACTS.filter(([field]) => facts[field] !== undefined && facts[field] !== '' && facts[field] !== null);
  return el('dl.facts', {}, known.flatMap(([field, words]) => [el('dt', {}, words), el('dd', {}, sheetWord(String(facts[field])))]));
}

// What is wrong with a photo, a line each.
export const notesOf = (photo) => photo.notes.flatMap((words) => [sentence(words), el('br')]);
export const sentence = (words) => `${words[0].toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? '' : '.'}`;

export const ANSWERS = { same: t('same'), different: t('different'), cannot_tell: t('cannot tell'), new: t('new') };
