// A midline by hand, where the belly was found wrongly: throat fold first, vent last, and the strip beside it.
import { forgetAhead } from './ahead.js';
import { forgetPictures, get, Refused } from './api.js';
import { by, command, folder, word } from './command.js';
import { button, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { say } from './outbox.js';
import { sentence } from './parts.js';
import { refreshHello } from './place.js';
import { askWhy } from './weigh.js';
import { t } from './words.js';

export async function show(root, [id, photoId]) {
  const capture = await get(`/api/capture/${id}`);
  const photo = capture.photos.find((one) => one.photo === photoId);
  if (!photo) throw new Error(t('This capture has no such photo.'));
  const image = new Image();
  image.src = `/photo/${photoId}`;
  await image.decode();
  const canvas = el('canvas', { tabindex: '0', role: 'application', 'aria-describedby': 'how',
    'aria-label': t('The photo: points of the midline are set on it') });
  const strip = el('div.strip', { 'aria-live': 'polite' });
  const told = el('p.told', { role: 'status' });
  let points = []; // pixels of the picture as loaded
  let cross = { x: image.naturalWidth / 2, y: image.naturalHeight / 2 };

  const fit = () => {
    const box = canvas.getBoundingClientRect();
    const scale = Math.min(box.width / image.naturalWidth, box.height / image.naturalHeight) || 1;
    return { box, scale, left: (box.width - image.naturalWidth * scale) / 2, top: (box.height - image.naturalHeight * scale) / 2 };
  };
  function draw() {
    const { box, scale, left, top } = fit(), dense = devicePixelRatio || 1;
    Object.assign(canvas, { width: box.width * dense, height: box.height * dense });
    const c = canvas.getContext('2d');
    c.setTransform(dense, 0, 0, dense, 0, 0);
    c.drawImage(image, left, top, image.naturalWidth * scale, image.naturalHeight * scale);
    const on = ({ x, y }) => [left + x * scale, top + y * scale];
    for (const [width, colour] of [[5, '#0b0a08'], [2.5, '#a7ecf2']]) {
      c.lineWidth = width;
      c.strokeStyle = colour;
      c.beginPath();
      points.forEach((point, i) => (i ? c.lineTo(...on(point)) : c.moveTo(...on(point))));
      c.stroke();
      for (const point of points) { c.beginPath(); c.arc(...on(point), 6, 0, 7); c.stroke(); }
      const [x, y] = on(cross);
      c.beginPath(); c.moveTo(x - 14, y); c.lineTo(x + 14, y); c.moveTo(x, y - 14); c.lineTo(x, y + 14); c.stroke();
    }
    c.font = '600 14px system-ui, sans-serif';
    c.lineWidth = 4;
    c.strokeStyle = '#0b0a08';
    c.fillStyle = '#ffffff';
    points.forEach((point, i) => {
      const word = i === 0 ? 'throat' : i === points.length - 1 ? 'vent' : '';
      const [x, y] = on(point);
      c.strokeText(word, x + 10, y); c.fillText(word, x + 10, y);
    });
  }
  // The photo may have been sent smaller than it is.
  const full = Math.max(photo.width, photo.height) / Math.max(image.naturalWidth, image.naturalHeight);
  const pixels = () => points.map(({ x, y }) => [x * full, y * full].map((each) => Math.round(each * 10) / 10));
  // The strip along the points so far, at once; nothing of it is saved.
  let shown = 0, found = [];
  async function preview() {
    const mine = ++shown;
    found = [];
    if (points.length < 2) return fill(strip);
    const query = new URLSearchParams({ points: pixels().map((point) => point.join(',')).join(';') });
    const seen = await get(`/api/along/${photoId}?${query}`).catch((error) => ({ strip: null, notes: [error.message], objections: [] }));
    if (mine !== shown) return;
    found = seen.objections;
    const words = [...seen.objections.map((one) => one.sentence), ...seen.notes].map(sentence);
    fill(strip, seen.strip && el('img', { src: URL.createObjectURL(new Blob([Uint8Array.from(atob(seen.strip), (c) => c.charCodeAt(0))], { type: 'image/jpeg' })),
      alt: t('The strip along the points, not saved yet'), width: '160', height: '512' }),
    el('p.why', {}, t('Not saved yet.')), words.map((each) => el('p', { class: found.length ? 'problem' : 'why' }, each)));
  }
  const place = (point) => { points.push({ ...point }); told.textContent = t('Point {points} set.', { points: points.length }); draw(); preview(); };
  canvas.addEventListener('click', (event) => {
    const { box, scale, left, top } = fit();
    cross = { x: (event.clientX - box.left - left) / scale, y: (event.clientY - box.top - top) / scale };
    place(cross);
  });
  const step = (dx, dy) => {
    const by = image.naturalWidth / 100;
    cross = { x: Math.min(image.naturalWidth, Math.max(0, cross.x + dx * by)), y: Math.min(image.naturalHeight, Math.max(0, cross.y + dy * by)) };
    draw();
  };
  const remove = () => { points.pop(); told.textContent = t('{points} left.', { points: points.length }); draw(); preview(); };
  async function saveLine(body, shownBefore = found) {
    let objections = shownBefore;
    for (;;) {
      const reason = objections.length ? await askWhy(objections.map((one) => ({ ...one, photos: [], names: [] })), t('Save this midline')) : '';
      if (reason === null) return null;
      try {
        return await say('/api/midline', { ...body, reason, in_spite_of: objections.map((one) => one.code) });
      } catch (error) {
        // Saved before the strip was shown: what speaks against it is in the refusal.
        if (!(error instanceof Refused) || error.status !== 409 || objections.length) throw error;
        objections = [{ code: 'midline_off_body', sentence: error.message }];
      }
    }
  }
  async function save() {
    if (points.length < 2) { told.textContent = t('Set at least two points: the throat fold and the vent.'); return; }
    told.textContent = t('Straightening…');
    shown += 1; // what is on its way is not to be drawn over what is saved
    try {
      const done = await saveLine({ capture: id, photo: photoId, points: pixels() });
      if (!done) { told.textContent = t('Nothing was saved.'); return; }
      forgetPictures();
      forgetAhead();
      told.textContent = t('Saved. {what}', { what: done.notes.map(sentence).join(' ') || t('The photo can be used.') });
      fill(strip, el('img', { src: `/strip/${photoId}?drawn=${done.position}`, alt: t('The strip along the drawn midline'), width: '160', height: '512' }));
      await refreshHello();
    } catch (error) {
      told.textContent = error.message;
    }
  }
  fill(root,
    el('div.heading', {}, el('h1', {}, t('Midline of {name}', { name: photo.name })), el('a', { href: `#/capture/${id}` }, t('Back to the capture'))),
    el('p.why', { id: 'how' }, t('Set points along the middle of the belly: first the throat fold, then two or three between, last the vent. By mouse or touch, or with the arrows and Enter. The strip is shown from the second point on.')),
    el('div.tools', {}, button('Enter', t('Set a point'), () => place(cross)), button('⌫', t('Take the last away'), remove), button('s', t('Save, and straighten'), save, { class: 'main' })),
    el('div.both', {}, el('div.board', {}, canvas), strip), told,
    command(`evet inspect ${word(photo.name)} --out FOLDER --midline X,Y X,Y --into ${folder()} ${by()}`));
  useKeys([
    { key: 'Enter', label: t('Set a point at the cross'), run: () => place(cross) },
    { key: 'Backspace', label: t('Take the last point away'), run: remove },
    { key: 's', label: t('Save, and straighten'), run: save },
    ...[[t('Up'), t('Cross up'), t('Cross far up'), 0, -1], [t('Down'), t('Cross down'), t('Cross far down'), 0, 1], [t('Left'), t('Cross left'), t('Cross far left'), -1, 0], [t('Right'), t('Cross right'), t('Cross far right'), 1, 0]].flatMap(([name, label, far, dx, dy]) => [
      { key: `Arrow${name}`, label, run: () => step(dx, dy), repeats: true },
      { key: `Shift+Arrow${name}`, label: far, run: () => step(5 * dx, 5 * dy), repeats: true }]),
  ]);
  const watcher = new ResizeObserver(draw);
  watcher.observe(canvas);
  return () => watcher.disconnect();
}
