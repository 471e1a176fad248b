// The night at a glance, and what is worth a look.
import { get, session } from './api.js';
import { button, counted, dateInWords, el, fill, refill } from './dom.js';
import { useKeys } from './keys.js';
import { onSaved, say } from './outbox.js';
import { notesOf, tableCaption, undoButtons } from './parts.js';
import { go, refreshHello, reload } from './place.js';

let last = null;

// Judged here, and perhaps not yet known to the program: capture -> { stillOpen, position of the entry }.
const judged = new Map();

// The queue as it was last seen, so that the light table knows what comes next without asking.
export async function queueOf(night, fresh = false) {
  if (!fresh && last?.night === night) return last;
  last = await get(`/api/night${night ? `/${night}` : ''}`);
  // An answer that was on its way while the reader went on does not bring back what is judged.
  for (const [id, one] of judged) {
    if (one.position <= last.position) judged.delete(id);
    else leaveQueue(id, one.stillOpen);
  }
  return last;
}
function leaveQueue(id, stillOpen) {
  const one = last?.queue.find((each) => each.capture === id);
  if (!one) return;
  last.queue = last.queue.filter((each) => each !== one);
  if (stillOpen) last.queue.push({ ...one, open: true });
}
// What was just judged leaves the queue at once, or goes to its end when it stays open; `saved` is the program's answer.
export function judgedInQueue(id, stillOpen, saved) {
  const one = { stillOpen, position: Infinity };
  judged.set(id, one);
  saved.then(({ position }) => { one.position = position; }, () => judged.delete(id));
  leaveQueue(id, stillOpen);
}

function glance(night) {
  const g = night.glance;
  const parts = [['again', 'caught again', g.caught_again], ['fresh', 'new', g.new], ['look', 'to look at', g.to_look],
    ['unusable', 'unusable', g.unusable]];
  return el('section.glance', { 'aria-label': 'The night at a glance' },
    el('div.numbers', {}, parts.map(([name, words, n]) => el(`div.number.${name}`, {}, el('b', {}, String(n)), ' ', el('span', {}, words)))),
    el('div.bar', { 'aria-hidden': 'true' }, parts.filter(([, , n]) => n).map(([name, , n]) => {
      const part = el(`i.${name}`);
      part.style.flexGrow = n;
      return part;
    })),
    el('p', {}, `${counted(g.captures, 'capture')} on the sheet, ${counted(g.photos, 'photo')}`,
      g.photos_unusable ? `, ${g.photos_unusable} of them not usable` : '', '.',
      g.of_these_sure ? ` The program is sure of ${g.of_these_sure} of those to look at.` : ''));
}

const thumb = (photo) => (photo ? el('img.thumb', { src: `/strip/${photo}`, alt: '', loading: 'lazy', width: '40', height: '128' })
  : el('span.thumb.none', {}, 'no strip'));

function waitingRow(one, first) {
  return el('li', {}, el('a.row', { href: `#/capture/${one.capture}`, 'data-first': first },
    thumb(one.strip), el('span.what', {}, el('strong', {}, one.name), ...one.why.map((words) => el('span.why', {}, words)),
      one.open && el('span.why', {}, 'left open by you'))));
}

function settledRow(one) {
  return el('li', {}, el('a.row', { href: `#/capture/${one.capture}` }, thumb(one.strip),
    el('span.what', {}, el('strong', {}, one.name), el('span.why', {}, `${one.outcome}: ${one.individual}`),
      el('span.why', {}, `by ${one.by}`))));
}

function unusableRow(one) {
  return el('li', {}, el('div.row', {}, el('span.what', {}, el('strong', {}, one.name),
    one.photos.map((photo) => el('span.why', {}, photo.name, el('br'), ...notesOf(photo),
      el('a', { href: `#/midline/${one.capture}/${photo.photo}` }, 'Draw the midline'))))));
}

export async function show(root, [date], still) {
  let timer = 0, asked = 0;
  const draw = async () => {
    const mine = ++asked;
    const night = await queueOf(date, true);
    if (!still() || mine !== asked) return; // a newer answer is on its way
    if (!night.night) {
      return fill(root, el('h1', {}, 'Nothing is in this catalogue yet'),
        el('p', {}, 'Take in a night with ', el('code', {}, 'evet intake'), ' and open this page again.'));
    }
    const sure = night.queue.filter((one) => one.advice === 'same' || one.advice === 'new');
    const accept = async () => {
      if (!sure.length) return;
      await say('/api/accept', { captures: sure.map((one) => one.capture), generation: night.generation });
      await refreshHello();
      reload();
    };
    const look = () => night.queue[0] && go(`capture/${night.queue[0].capture}`);
    const chooser = el('select', { 'aria-label': 'Another night', onchange: () => go(`night/${chooser.value}`) },
      session.hello.nights.map((one) => el('option', { value: one.night, selected: one.night === night.night },
        `${one.night}: ${counted(one.captures, 'capture')}${one.unsettled ? `, ${one.unsettled} open` : ''}`)));
    const ranking = night.ranking.running
      ? el('p.waiting', { role: 'status' }, night.ranking.all ? `Comparing with the catalogue: ${night.ranking.done} of ${night.ranking.all}` : 'Comparing with the catalogue…')
      : night.ranking.failed ? el('p.problem', { role: 'alert' }, night.ranking.failed) : null;
    refill(root,
      el('div.heading', {}, el('h1', {}, `Night of ${dateInWords(night.night)}`), el('span.places', {}, night.places.join('; ')), chooser),
      glance(night), ranking,
      el('div.actions', {},
        night.queue.length ? button('Enter', 'Look at the first', look, { class: 'main' }) : el('p.done', {}, 'This night is settled.'),
        sure.length ? button('a', `Accept ${sure.length === 1 ? 'the one' : `the ${sure.length}`} the program is sure of`, accept) : null,
        undoButtons(night)),
      el('h2', {}, tableCaption('Worth a look', night.queue.length)),
      night.queue.length && night.costs ? el('p.costs', {}, `What a look gains most on comes first. ${night.costs}`) : null,
      el('ol.rows', {}, night.queue.map((one, i) => waitingRow(one, i === 0))),
      night.unusable.length ? [el('h2', {}, tableCaption('Unusable', night.unusable.length)), el('ul.rows', {}, night.unusable.map(unusableRow))] : null,
      night.settled.length ? [el('h2', {}, tableCaption('Settled', night.settled.length)), el('ul.rows', {}, night.settled.map(settledRow))] : null);
    useKeys([{ key: 'Enter', label: 'Look at the first', run: look },
      { key: 'a', label: 'Accept what the program is sure of', run: accept },
      ...undoButtons.keys(night)]);
    clearTimeout(timer);
    if (night.ranking.running) timer = setTimeout(() => still() && draw().catch(() => {}), 700);
  };
  // What was said on the way here may reach the disk only after the night was asked for.
  const silence = onSaved((state) => { if (state === 'saved' && still()) draw().catch(() => {}); });
  await draw();
  return () => { clearTimeout(timer); silence(); };
}
