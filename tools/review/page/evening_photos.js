// The photos of an evening: thumbnails that are chosen, dragged and looked at, and what is said of each.
import { counted, el, fill, percent } from './dom.js';
import { sentence } from './parts.js';
import { t } from './words.js';

const names = new Set();

export const chosen = {
  has: (name) => names.has(name),
  size: () => names.size,
  clear: () => names.clear(),
  toggle(name) { if (!names.delete(name)) names.add(name); },
  keep({ photos }) {
    for (const name of names) if (!photos.some((one) => one.name === name)) names.delete(name);
  },
  inOrder: ({ captures, photos }) => {
    const order = [...captures.flatMap((one) => one.photos), ...photos.filter((one) => one.left_out).map((one) => one.name)];
    return order.filter((name) => names.has(name));
  },
  first(evening) { return evening.photos.find((one) => one.name === this.inOrder(evening)[0]); },
  move(page, photos, to) {
    if (!photos.length) return null;
    names.clear();
    return page.act('move', { photos, to });
  },
  apart(page) { return this.move(page, this.inOrder(page.evening), ''); },
  together(page) {
    const photos = this.inOrder(page.evening);
    const home = page.evening.captures.find((one) => one.photos.includes(photos[0]));
    return this.move(page, photos, home?.key ?? '');
  },
  leaveOut(page) {
    const photos = this.inOrder(page.evening);
    if (!photos.length) return null;
    names.clear();
    return page.act('leave_out', { photos, out: true });
  },
};

export function likelyWords({ likely, looking, usable }) {
  if (!usable) return '';
  if (looking) return 'comparing…';
  if (!likely) return '';
  if (!likely.individual) return t('nobody is known yet');
  return likely.probability >= likely.new_probability ? t('probably {individual}, {probability}', { individual: likely.individual, probability: percent(likely.probability) })
    : t('probably new, {new_probability}', { new_probability: percent(likely.new_probability) });
}
export const judgedWords = (photo) => (!photo.judged ? t('being looked at') : photo.usable ? t('can be matched') : t('cannot be matched'));

const images = new Map();
function image(photo) {
  if (!images.has(photo.id)) images.set(photo.id, el('img', { src: `/evening/thumb/${photo.id}`, alt: '', loading: 'lazy', width: '96', height: '72' }));
  return images.get(photo.id);
}

export function photoDialog(evening, photo) {
  const dialog = el('dialog.photos', { 'aria-labelledby': 'photo-title' });
  fill(dialog, el('h2', { id: 'photo-title' }, photo.name),
    el('p', {}, [judgedWords(photo), likelyWords(photo), photo.taken_at.replace('T', ' ')].filter(Boolean).join(' · ')),
    photo.notes.map((one) => el('p', { class: one.blocks ? 'problem' : 'why' }, sentence(one.sentence))),
    el('img.large', { src: `/evening/photo/${photo.id}`, alt: t('Photo {name}', { name: photo.name }) }),
    el('form', { method: 'dialog' }, el('button', {}, t('Close'))));
  dialog.addEventListener('close', () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}

export function thumbnail(page, photo) {
  const toggle = () => { chosen.toggle(photo.name); page.draw(); };
  // No <button>: browsers do not let one be dragged.
  const node = el('div.shot', { role: 'button', tabindex: '0', onkeydown: (event) => {
    if (event.key !== 'Enter' && event.key !== ' ') return;
    event.preventDefault();
    toggle();
  }, id: `shot-${photo.id.slice(0, 16)}`, 'aria-pressed': String(chosen.has(photo.name)), draggable: 'true',
    'aria-label': `${photo.name}, ${judgedWords(photo)}`, onclick: toggle, ondblclick: () => photoDialog(page.evening, photo),
    class: `shot ${!photo.judged ? 'unknown' : photo.usable ? 'good' : 'bad'}` },
  image(photo), el('span.mark', { 'aria-hidden': 'true' }, !photo.judged ? '…' : photo.usable ? '✓' : '✗'),
  photo.taken_at && el('span.time', {}, photo.taken_at.slice(11, 19)));
  node.addEventListener('dragend', () => { page.dragging = false; page.draw(); });
  node.addEventListener('dragstart', (event) => {
    page.dragging = true; // drawn anew, the photo would slip from the hand
    const photos = chosen.has(photo.name) ? chosen.inOrder(page.evening) : [photo.name];
    event.dataTransfer.setData('application/x-evet-photos', JSON.stringify(photos));
    event.dataTransfer.effectAllowed = 'move';
  });
  return node;
}

// Photos dragged onto `node` go into the capture `key`; '' is one of their own.
export function takesPhotos(node, page, key) {
  node.addEventListener('dragover', (event) => {
    if (!event.dataTransfer.types.includes('application/x-evet-photos')) return;
    event.preventDefault();
    node.classList.add('over');
  });
  node.addEventListener('dragleave', (event) => { if (!node.contains(event.relatedTarget)) node.classList.remove('over'); });
  node.addEventListener('drop', (event) => {
    const data = event.dataTransfer.getData('application/x-evet-photos');
    if (!data) return;
    event.preventDefault();
    page.dragging = false;
    chosen.move(page, JSON.parse(data), key);
  });
  return node;
}

// What can be done with what is chosen, for mouse, finger and Tab key alike.
export function chosenBar(page) {
  const n = chosen.size();
  if (!n) return el('p.why.chosen', {}, t('Choose photos to part or join captures, or drag them from row to row.'));
  const into = el('select', { id: 'chosen-into', 'aria-label': t('Put the chosen photos into'), onchange: () => into.value && chosen.move(page, chosen.inOrder(page.evening), into.value) },
    el('option', { value: '' }, t('Put into …')), page.evening.captures.filter((one) => !one.nothing_caught).map((one) => el('option', { value: one.key }, one.label)));
  return el('div.actions.chosen', { role: 'group', 'aria-label': t('Chosen photos') }, el('strong', {}, t('{photos} chosen', { photos: counted(n, '{n} photo', '{n} photos') })),
    el('button', { type: 'button', id: 'chosen-apart', onclick: () => chosen.apart(page) }, el('kbd', {}, 'x'), t(' Their own capture')),
    n > 1 && el('button', { type: 'button', id: 'chosen-together', onclick: () => chosen.together(page) }, el('kbd', {}, 't'), t(' Together')), into,
    el('button', { type: 'button', id: 'chosen-look', onclick: () => photoDialog(page.evening, chosen.first(page.evening)) }, el('kbd', {}, 'l'), t(' Look')),
    el('button', { type: 'button', id: 'chosen-out', onclick: () => chosen.leaveOut(page) }, el('kbd', {}, 'o'), t(' Leave out')),
    el('button.quiet', { type: 'button', id: 'chosen-none', onclick: () => { chosen.clear(); page.draw(); } }, t('Choose none')));
}
