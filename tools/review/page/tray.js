// At the water's edge: photograph, and see before the animal goes back whether it can be matched and who it may be.
import { get, session } from './api.js';
import { counted, el, fill } from './dom.js';
import { judgedWords, likelyWords } from './evening_photos.js';
import { command } from './command.js';
import { useKeys } from './keys.js';
import { sentence } from './parts.js';
import { enqueue, onUpload, uploading, uploads } from './upload.js';
import { t } from './words.js';

const SHOWN = 12;

function card(evening, photo) {
  const capture = evening.captures.find((one) => one.photos.includes(photo.name));
  const likely = likelyWords(photo);
  return el('li.tray-card', { class: `tray-card ${!photo.judged ? 'unknown' : photo.usable ? 'good' : 'bad'}` },
    el('img', { src: `/evening/thumb/${photo.id}`, alt: '', width: '120', height: '90' }),
    el('div.what', {}, el('strong.verdict', {}, photo.judged ? sentence(judgedWords(photo)) : t('Being looked at…')),
      photo.notes.map((one) => el('span', { class: one.blocks ? 'problem' : 'why' }, sentence(one.sentence))),
      likely && el('span.likely', {}, `${sentence(likely)}`),
      el('span.why', {}, [capture && t('capture {label}', { label: capture.label }), photo.taken_at.slice(11, 16)].filter(Boolean).join(', '))));
}

export async function show(root, _rest, still) {
  let evening = await get('/api/evening'), timer = 0, last = '';
  const list = el('div'), on = el('div', { role: 'status' });
  const input = el('input', { type: 'file', id: 'shoot', accept: 'image/*', capture: 'environment',
    onchange: () => { enqueue([...input.files], evening.photos); input.value = ''; } });
  const draw = () => {
    const newest = [...evening.photos].filter((one) => !one.left_out).reverse();
    const drawn = JSON.stringify(newest.slice(0, SHOWN)) + evening.captures.length;
    if (drawn === last) return;
    last = drawn;
    fill(list, newest.length ? [el('p.why', {}, t('{photos} in {captures} tonight.', { photos: counted(newest.length, '{n} photo', '{n} photos'), captures: counted(evening.captures.length, '{n} capture', '{n} captures') })), el('ul.tray-list', { 'aria-live': 'polite' }, newest.slice(0, SHOWN).map((one) => card(evening, one)))]
      : el('p', {}, t('The belly whole from throat to vent, filling most of the picture, sharp, without a lamp mirrored in the wet skin.')));
  };
  const drawOn = () => {
    const state = uploads();
    fill(on, uploading() && el('p', {}, t('The photo is on its way…')), state.waiting && el('p.problem', {}, state.waiting),
      state.refused.slice(-1).map((one) => el('p.problem', {}, sentence(one.why))));
  };
  const refresh = async () => {
    clearTimeout(timer);
    evening = await get('/api/evening').catch(() => evening);
    if (!still()) return;
    draw();
    const busy = uploading() || evening.photos.some((one) => !one.left_out && (!one.judged || one.looking));
    timer = setTimeout(refresh, busy ? 600 : 4000);
  };
  fill(root, el('div.heading', {}, el('h1', { tabindex: '-1' }, t('At the tray')), el('span.places', {}, session.hello.title)),
    el('div.shoot', {}, el('label.button.main.pick.shoot-button', {}, t('Photograph'), input)),
    on, list,
    el('p.why', {}, t('Shortest time in hand, wet hands or clean gloves, shade. For licensed handlers only.')),
    el('p', {}, el('a', { href: '#/evening' }, t('The sheet of this night'))), command('evet inspect PHOTO --out FOLDER'));
  const silence = onUpload(() => { drawOn(); refresh(); });
  drawOn();
  draw();
  refresh();
  useKeys([]);
  return () => { clearTimeout(timer); silence(); };
}
