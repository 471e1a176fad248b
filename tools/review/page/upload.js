// Photos on their way to the program: from a folder, a card or the camera of a phone, in pieces, a few at a time.
//
// Goes on while other pages are shown. What the program has already is not sent again, so after a reload the same
// folder is chosen again and only the rest travels; while the program does not answer, everything waits here.
import { Refused, session } from './api.js';
import { enterAgain } from './enter_again.js';
import { t } from './words.js';

const AT_ONCE = 3;
const PICTURES = /\.(jpe?g|png|tiff?|heic|heif)$/i;
const listeners = new Set();
const queue = [];
const state = { sending: 0, done: 0, all: 0, bytesDone: 0, bytesAll: 0, again: 0, refused: [], notPictures: [], waiting: '', began: 0 };

export const uploads = () => state;
export const uploading = () => queue.length + state.sending > 0;
export function onUpload(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
const tell = () => { for (const listener of listeners) listener(state); };

// Seconds, or null while nothing can be said yet.
export function secondsLeft(now = performance.now()) {
  const elapsed = (now - state.began) / 1000;
  if (!state.bytesDone || elapsed < 1) return null;
  return Math.ceil(elapsed * (state.bytesAll - state.bytesDone) / state.bytesDone);
}

export function forgetRefused() {
  state.refused = [];
  state.notPictures = [];
  tell();
}

// `known`: photos that the program has, as in the evening.
export function enqueue(files, known) {
  if (!uploading()) Object.assign(state, { done: 0, all: 0, bytesDone: 0, bytesAll: 0, again: 0, began: performance.now() });
  const there = new Set(known.map((one) => `${one.from}\n${one.bytes}\n${one.modified}`));
  for (const file of files) {
    if (/^\./.test(file.name)) continue; // left by other systems beside their pictures
    if (!PICTURES.test(file.name)) {
      state.notPictures.push(file.name);
    } else if (there.has(`${file.name}\n${file.size}\n${file.lastModified}`)) {
      state.again += 1;
    } else {
      queue.push({ file, upload: crypto.randomUUID?.() ?? `${Date.now()}-${Math.random()}`, sent: 0 });
      state.all += 1;
      state.bytesAll += file.size;
    }
  }
  tell();
  for (let i = state.sending; i < AT_ONCE; ++i) next();
}

async function next() {
  const one = queue.shift();
  if (!one) return;
  state.sending += 1;
  try {
    const answer = await send(one);
    state.done += 1;
    state.again += answer.again ? 1 : 0;
  } catch (error) {
    state.refused.push({ name: one.file.name, why: error.message });
    state.bytesAll -= one.file.size;
    state.bytesDone -= one.sent;
    state.all -= 1;
  }
  state.sending -= 1;
  tell();
  next();
}

const pause = (ms) => new Promise((resolve) => { setTimeout(resolve, ms); });

async function send(one) {
  const { file } = one;
  const size = 60 * 1024;
  for (let at = 0; ;) {
    let piece, response, json;
    try {
      piece = await file.slice(at, at + size).arrayBuffer();
    } catch {
      throw new Error(t('the file can no longer be read: was the card taken out?'));
    }
    try {
      const where = new URLSearchParams({ upload: one.upload, name: file.name, at, size: file.size, modified: file.lastModified });
      response = await fetch(`/api/evening/piece?${where}`, { method: 'POST', body: piece, headers: {
        'Content-Type': 'application/octet-stream', 'X-Evet-Guard': session.hello.write_key, 'X-Evet-Reader': session.reader,
        'X-Evet-Catalogue': session.hello.catalogue } });
      json = await response.json().catch(() => null);
    } catch {
      json = null;
    }
    if (!json || (response.status >= 500 && response.status !== 507)) {
      state.waiting = t('The program does not answer: tried again.');
      tell();
      await pause(1500);
      continue;
    }
    state.waiting = '';
    if (response.status === 507) { // the disk: room may be made while this waits
      state.waiting = t('The disk is full. Free some space there: the photos wait here, and go on by themselves.');
      tell();
      await pause(4000);
      at = 0;
      continue;
    }
    // The program was started anew, or its catalogue is not open yet: a photo of a phone lies nowhere else.
    if (response.status === 401 && await enterAgain()) continue;
    if (response.status === 401 || ['no_catalogue_is_open', 'code_waits_for_yes'].includes(json.error?.code)) {
      state.waiting = json.error.sentence;
      tell();
      await pause(4000);
      continue;
    }
    if (!response.ok) throw new Refused(response.status, json.error);
    const now = json.photo ? file.size : json.have;
    state.bytesDone += now - one.sent;
    one.sent = now;
    tell();
    if (json.photo) return json;
    at = json.have;
  }
}

// Everything in what was dropped, folders and all.
export async function filesIn(items) {
  const entries = [...items].map((item) => item.webkitGetAsEntry?.()).filter(Boolean);
  const files = [];
  const walk = async (entry) => {
    if (entry.isFile) return files.push(await new Promise((resolve, reject) => { entry.file(resolve, reject); }));
    const reader = entry.createReader();
    for (;;) {
      const some = await new Promise((resolve, reject) => { reader.readEntries(resolve, reject); });
      if (!some.length) return null;
      for (const each of some) await walk(each);
    }
  };
  for (const entry of entries) await walk(entry);
  return files;
}

addEventListener('beforeunload', (event) => { if (uploading()) event.preventDefault(); });
