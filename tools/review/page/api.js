// Talking to the program: JSON in, JSON out, and pictures kept while they are likely to be wanted again.
import { t } from './words.js';

export const session = { hello: null, reader: '', position: 0 };

export class Refused extends Error {
  constructor(status, error) {
    super(error?.sentence ?? t('The program answered {status}.', { status }));
    this.status = status;
    this.kind = error?.kind;
    this.code = error?.code;
  }
}

async function answerOf(response) {
  const json = await response.json().catch(() => null);
  if (response.ok) {
    if (json && Number.isInteger(json.position)) session.position = Math.max(session.position, json.position);
    return json;
  }
  throw new Refused(response.status, json?.error);
}

// Where the program has been ended a browser says "Failed to fetch", which tells a surveyor nothing.
const ask = (path, how) => fetch(path, how).catch(() => {
  throw new Error(t('The program does not answer: it may have been ended. Start it again and open the address that it gives; what you said is kept.'));
});

export async function get(path) {
  return answerOf(await ask(path, { headers: { 'X-Evet-Reader': session.reader, 'X-Evet-Catalogue': session.hello?.catalogue ?? '' } }));
}

// For what is no word of a reader's and may be lost with the window: an evening not yet taken in, another catalogue.
export const post = (path, body) => send(path, body, session.reader);

// What a reader says goes through the outbox, which calls this: a broken connection would lose it.
export async function send(path, body, reader) {
  return answerOf(await ask(path, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', 'X-Evet-Guard': session.hello.write_key, 'X-Evet-Reader': reader,
      'X-Evet-Catalogue': session.hello.catalogue },
    body: JSON.stringify(body),
  }));
}

export const stripPath = (photo, onto) => `/strip/${photo}${onto ? `?onto=${onto}` : ''}`;
export const maskPath = (photo, onto) => `/mask/${photo}${onto ? `?onto=${onto}` : ''}`;

// A few dozen pictures and answers, the oldest dropped first.
const kept = new Map();
const KEPT = 96;

function remembered(name, make) {
  const old = kept.get(name);
  if (old) {
    kept.delete(name);
    kept.set(name, old);
    return old;
  }
  const made = make().catch((error) => {
    kept.delete(name);
    throw error;
  });
  kept.set(name, made);
  if (kept.size > KEPT) kept.delete(kept.keys().next().value);
  return made;
}

export const picture = (path) => remembered(path, async () => {
  const response = await ask(path);
  if (!response.ok) return answerOf(response);
  return createImageBitmap(await response.blob());
});

export const evidence = (capture, candidate) => {
  const path = `/api/evidence/${capture}/${candidate}`;
  return remembered(path, () => get(path));
};

// After a midline was drawn, or undone: strips, masks and ties may all differ.
export const forgetPictures = () => kept.clear();
