// What the reader says, kept in the browser until the program has it on disk.
//
// Each item is written to local storage before it is sent and removed when it is answered; what a reload, a
// closed lid or a killed program left is sent again. The program knows a retry by itself (see say_once.h), so
// nothing is ever doubled. One window sends at a time.
import { Refused, send, session } from './api.js';
import { enterAgain } from './enter_again.js';
import { t } from './words.js';

const listeners = new Set();
let state = 'saved';
const waiting = new Map(); // id -> [resolve, reject] of this window

const name = () => `evet.outbox.${session.hello.catalogue}`;
const read = () => JSON.parse(localStorage.getItem(name()) ?? '[]');
const write = (items) => localStorage.setItem(name(), JSON.stringify(items));

let questions = 0;

function tell(next, sentence = '') {
  state = next === 'saved' && questions ? 'asking' : next;
  for (const listener of listeners) listener(state, sentence, read().length);
}
// While it is asked whether something speaks against what a reader is about to say, nothing of it is saved.
export async function asking(what) {
  questions += 1;
  if (state === 'saved') tell('asking');
  try {
    return await what();
  } finally {
    questions -= 1;
    if (state === 'asking' && !questions) tell('saved');
  }
}
// Tells of every change of state; returns what ends it.
export function onSaved(listener) {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

// Resolves with the program's answer, however long it takes; rejects when the program refuses.
export function say(path, body) {
  const item = { id: crypto.randomUUID?.() ?? String(Math.random()), path, reader: session.reader,
    body: { ...body, after: session.position } };
  write([...read(), item]);
  const answered = new Promise((resolve, reject) => waiting.set(item.id, [resolve, reject]));
  tell('saving'); // from this moment on: another window may have to be waited for before it is sent
  flush();
  return answered;
}

let flushing = false;
export async function flush() {
  if (flushing) return;
  flushing = true;
  try {
    if (navigator.locks) await navigator.locks.request(name(), sendAll);
    else await sendAll();
  } finally {
    flushing = false;
  }
  if (read().length && state !== 'stopped') setTimeout(flush, state === 'waiting' ? 1500 : 0);
}

async function sendAll() {
  for (let item; (item = read()[0]);) {
    tell('saving');
    let done, failed;
    try {
      done = await send(item.path, item.body, item.reader);
    } catch (error) {
      if (!(error instanceof Refused)) return tell('waiting', t('The program does not answer: kept here, and tried again.'));
      if (error.status === 401 && await enterAgain()) continue;
      if (error.status === 401 || error.status === 403)
        return tell('stopped', t('The program was started anew: open the address that it printed. What you said is kept.'));
      // Somebody has to say yes first that this browser is the reader's: nothing is lost meanwhile.
      if (error.status >= 500 || error.code === 'code_waits_for_yes') return tell('waiting', error.message);
      failed = error;
    }
    write(read().filter((other) => other.id !== item.id));
    const [resolve, reject] = waiting.get(item.id) ?? [];
    waiting.delete(item.id);
    if (failed) {
      tell('refused', failed.message);
      reject?.(failed);
    } else {
      resolve?.(done);
    }
  }
  if (state !== 'refused') tell('saved');
}
