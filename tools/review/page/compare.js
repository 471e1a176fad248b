// The light table itself: a capture's strip and a candidate's, and the ways to look at both.
import { evidence, maskPath, picture, stripPath } from './api.js';
import { button, counted, el, fill, reducedMotion } from './dom.js';
import { Stage } from './stage.js';
import { t } from './words.js';

const MODES = [['v', 'beside', t('Side by side')], ['o', 'over', t('Overlay')], ['b', 'turn', t('Blink')], ['f', 'difference', t('Difference')]];

// { ties: false } for a blind reader: spots tied by the program are its opinion.
// Returns { node, keys, lay(capturePhoto, candidatePhoto, what they are called), close() }; with no candidate only the
// capture lies there.
export function comparer({ ties = true } = {}) {
  const canvas = el('canvas', { role: 'img', 'aria-label': t('The strips of the capture and of the candidate, head up') });
  const stage = new Stage(canvas);
  stage.marks = ties;
  const told = el('p.told', { role: 'status' });
  const names = el('div.names', { 'aria-hidden': 'true' }, el('span', {}, t('capture')), el('span', {}, t('candidate')));
  let timer = 0, laid = 0, current = [], called = [t('capture'), t('candidate')];

  const slider = el('input', { type: 'range', min: '0', max: '100', value: '50', 'aria-label': t('How much of the candidate shows'),
    oninput: () => stage.set({ mix: slider.value / 100 }) });
  const rate = el('input', { type: 'range', min: '0.5', max: '4', step: '0.5', value: '1.5', 'aria-label': t('Blinks a second'),
    oninput: () => mode(stage.mode) });
  const turnOver = () => { stage.set({ turn: 1 - stage.turn }); nameThem(); };
  const flip = () => { turnOver(); told.textContent = called[stage.turn]; };
  function nameThem() {
    const { mode: now, turn, alone } = stage;
    const only = alone ? 0 : now === 'turn' ? turn : null; // where one strip lies there by itself
    names.classList.toggle('one', only !== null);
    lying.setAttribute('aria-pressed', String(stage.layout().lying));
    const stacked = only === null && now === 'beside' && stage.layout().lying;
    names.classList.toggle('stacked', stacked);
    [...names.children].forEach((node, i) => {
      node.textContent = stacked ? `${['above', 'below'][i]}: ${called[i]}` : called[i];
      node.hidden = only !== null && i !== only;
    });
  }
  const extra = el('div.extra');
  const modeButtons = Object.fromEntries(MODES.map(([key, name, label]) => [name, button(key, label, () => mode(name), { 'aria-pressed': 'false' })]));

  function mode(next) {
    if (stage.alone && next !== 'beside') return; // nothing to hold it against
    clearInterval(timer);
    stage.set({ mode: next });
    nameThem();
    for (const [name, node] of Object.entries(modeButtons)) node.setAttribute('aria-pressed', String(name === next));
    if (next === 'over') fill(extra, el('label', {}, t('capture '), slider, t(' candidate')));
    else if (next === 'difference') fill(extra, el('span.why', {}, t('Bright where they differ, dark where they agree.')));
    else if (next === 'turn') {
      fill(extra, button('Space', t('Turn over'), flip),
        reducedMotion() ? el('span.why', {}, t('This machine asks for no motion: turn by hand.')) : el('label', {}, t('slow '), rate, t(' fast')));
      if (!reducedMotion()) timer = setInterval(turnOver, 500 / rate.value);
    } else fill(extra);
  }
  const toggle = (key, label, name) => {
    const node = button(key, label, () => {
      stage.set({ [name]: !stage[name] });
      node.setAttribute('aria-pressed', String(stage[name]));
      if (name === 'masks' && stage.masks) loadMasks();
    }, { 'aria-pressed': String(stage[name]) });
    return node;
  };
  const lying = button('l', t('Lying'), () => {
    stage.set({ way: stage.layout().lying ? 'up' : 'lying' });
    nameThem();
  }, { 'aria-pressed': 'false', title: t('Lay the strips down with the head left, or stand them head up') });
  // Which way they lie follows from the room there is, until somebody says otherwise.
  const seeRoom = new ResizeObserver(() => nameThem());
  seeRoom.observe(canvas);
  const marks = ties ? toggle('t', t('Ties'), 'marks') : null;
  const masks = toggle('m', t('Masks'), 'masks');
  const photos = button('p', t('Photos'), () => showPhotos(current, called));
  const zoom = el('span.zoom', {}, button('+', '', () => stage.zoomBy(1.4), { 'aria-label': t('Closer'), title: t('Closer') }),
    button('−', '', () => stage.zoomBy(1 / 1.4), { 'aria-label': t('Away'), title: t('Away') }), button('0', '', () => stage.reset(), { 'aria-label': t('The whole strip'), title: t('The whole strip') }));

  async function loadMasks() {
    const [capture, candidate] = current, at = laid;
    const load = async (which, photo, onto) => {
      const mask = photo && await picture(maskPath(photo, onto)).catch(() => null);
      if (at === laid && stage.pictures[which]) { stage.pictures[which].mask = mask; stage.hatches = {}; stage.draw(); }
    };
    await Promise.all([load('capture', capture), load('candidate', candidate, capture)]);
  }

  async function lay(capture, candidate, words = [t('capture'), t('candidate')]) {
    const at = ++laid;
    current = [capture, candidate].filter(Boolean);
    called = words;
    stage.alone = !candidate;
    for (const node of Object.values(modeButtons)) node.hidden = stage.alone;
    if (stage.alone) mode('beside');
    nameThem();
    stage.hatches = {};
    const strips = await Promise.all([picture(stripPath(capture)), candidate && picture(stripPath(candidate, capture)).catch(() => picture(stripPath(candidate)))]);
    if (at !== laid) return;
    stage.set({ pictures: { capture: { strip: strips[0] }, candidate: candidate ? { strip: strips[1] } : undefined }, ties: null });
    told.textContent = '';
    if (stage.masks) loadMasks();
    if (!ties || !candidate) return;
    const found = await evidence(capture, candidate).catch(() => null);
    if (at !== laid || !found) return;
    stage.set({ ties: found });
    told.textContent = t('{spots} tied (numbered rings), {only_capture} only in the capture (triangles), {only_candidate} only in the candidate (squares).', { spots: counted(found.matched.length, '{n} spot', '{n} spots'), only_capture: found.only_capture.length, only_candidate: found.only_candidate.length });
  }

  mode('beside');
  return {
    node: el('section.table', { 'aria-label': t('Light table') },
      el('div.tools', {}, Object.values(modeButtons), marks, masks, lying, photos, zoom), extra, names,
      el('div.stage', {}, canvas), told),
    keys: [
      ...MODES.map(([key, name, label]) => ({ key, label, run: () => mode(name) })),
      { key: ' ', label: t('Turn over (blink)'), run: () => { if (stage.alone) return; if (stage.mode !== 'turn') mode('turn'); clearInterval(timer); flip(); } },
      ...(ties ? [{ key: 't', label: t('Ties'), run: () => marks.click() }] : []),
      { key: 'l', label: t('Lay the strips down, or stand them up'), run: () => lying.click() },
      { key: 'm', label: t('Masks: what was not seen'), run: () => masks.click() },
      { key: 'p', label: t('The original photos'), run: () => photos.click() },
      { key: '+', label: t('Closer'), run: () => stage.zoomBy(1.4), repeats: true },
      { key: '=', run: () => stage.zoomBy(1.4), repeats: true }, // the same key without Shift
      { key: '-', label: t('Away'), run: () => stage.zoomBy(1 / 1.4), repeats: true },
      { key: '0', label: t('The whole strip'), run: () => stage.reset() },
      ...[[t('Up'), t('Move up'), 0, -30], [t('Down'), t('Move down'), 0, 30], [t('Left'), t('Move left'), -30, 0], [t('Right'), t('Move right'), 30, 0]].map(([name, label, dx, dy]) => (
        { key: `Shift+Arrow${name}`, label, run: () => stage.move(dx, dy), repeats: true })),
    ],
    lay,
    close: () => { clearInterval(timer); stage.close(); seeRoom.disconnect(); },
  };
}

// The photos as they were taken, side by side, over everything else.
export function showPhotos(photos, words = [t('capture'), t('candidate')]) {
  const dialog = el('dialog.photos', { 'aria-label': t('Original photos') },
    el('div.two', {}, photos.map((photo, i) => el('figure', {}, el('figcaption', {}, words[i]),
      el('img', { src: `/photo/${photo}`, alt: t('Photo of {words}', { words: words[i] }) })))),
    button('Esc', t('Back to the strips'), () => dialog.close(), { autofocus: true }));
  dialog.addEventListener('keydown', (event) => { if (event.key === 'p') dialog.close(); });
  dialog.addEventListener('close', () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}
