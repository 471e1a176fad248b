// The night at a glance, and what is worth a look.
import { get, session } from './api.js';
import { closeCapture } from './closing.js';
import { moveNight } from './move_night.js';
import { button, counted, dateInWords, el, fill, percent, refill } from './dom.js';
import { useKeys } from './keys.js';
import { onSaved, say } from './outbox.js';
import { notesOf, tableCaption, undoButtons } from './parts.js';
import { go, refreshHello, reload } from './place.js';
import { t } from './words.js';

let last = null;

// Judged here, and perhaps not yet known to the program: capture -> { stillOpen, position of the entry }.
const judged = new Map();

// The queue as it was last seen, so that the light table knows what comes next without asking.
export async function queueOf(night, fresh = false) {
  if (!fresh && last?.night === night && last.generation) return last; // before the first ranking its order means nothing
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
  const parts = [['again', t('caught again'), g.caught_again], ['fresh', t('new'), g.new], ['look', t('to look at'), g.to_look],
    ['unusable', t('unusable'), g.unusable], ...(g.closed ? [['closed', t('closed'), g.closed]] : [])];
  return el('section.glance', { 'aria-label': t('The night at a glance') },
    el('div.numbers', {}, parts.map(([name, words, n]) => el(`div.number.${name}`, {}, el('b', {}, String(n)), ' ', el('span', {}, words)))),
    el('div.bar', { 'aria-hidden': 'true' }, parts.filter(([, , n]) => n).map(([name, , n]) => {
      const part = el(`i.${name}`);
      part.style.flexGrow = n;
      return part;
    })),
    el('p', {}, t('{captures} on the sheet, {photos}', { captures: counted(g.captures, '{n} capture', '{n} captures'), photos: counted(g.photos, '{n} photo', '{n} photos') }),
      g.photos_unusable ? t(', {photos_unusable} of them not usable', { photos_unusable: g.photos_unusable }) : '', '.',
      g.of_these_sure ? t(' The program is sure of {of_these_sure} of those to look at.', { of_these_sure: g.of_these_sure }) : ''));
}

const thumb = (photo) => (photo ? el('img.thumb', { src: `/strip/${photo}`, alt: '', loading: 'lazy', width: '40', height: '128' })
  : el('span.thumb.none', {}, t('no strip')));

function waitingRow(one) {
  return el('li', {}, el('a.row', { href: `#/capture/${one.capture}` },
    thumb(one.strip), el('span.what', {}, el('strong', {}, one.name), ...one.why.map((words) => el('span.why', {}, words)),
      one.open && el('span.why', {}, t('left open by you')))));
}

// The capture beside what the program takes it for.
function sureRow(one) {
  const same = one.advice === 'same' && one.match;
  return el('li', {}, el('a.row.sure', { href: `#/capture/${one.capture}` }, thumb(one.strip),
    same ? thumb(one.match.strip) : el('span.thumb.none', {}, t('new')),
    el('span.what', {}, el('strong', {}, one.name), el('span', {}, same ? t('is {individual}', { individual: one.match.individual }) : t('is new')),
      el('span.p', {}, percent(same ? one.match.probability : one.new_probability)),
      one.why.slice(1).map((words) => el('span.why', {}, words)))));
}

function settledRow(one) {
  return el('li', {}, el('a.row', { href: `#/capture/${one.capture}` }, thumb(one.strip),
    el('span.what', {}, el('strong', {}, one.name), el('span.why', {}, `${one.outcome}: ${one.individual}`),
      el('span.why', {}, t('by {by}', { by: one.by })))));
}

function closedRow(one) {
  return el('li', {}, el('a.row', { href: `#/capture/${one.capture}` }, thumb(one.strip), el('span.what', {}, el('strong', {}, one.name),
    el('span.why', {}, one.other ? t('the same as {other}', { other: one.other }) : one.as), el('span.why', {}, t('by {by}', { by: one.by })))));
}

function unusableRow(one, night, draw) {
  return el('li', {}, el('div.row', {}, el('span.what', {}, el('strong', {}, one.name),
    one.photos.map((photo) => el('span.why', {}, photo.name, el('br'), ...notesOf(photo),
      el('a', { href: `#/midline/${one.capture}/${photo.photo}` }, t('Draw the midline')))),
    el('span.moves', {}, el('a.small', { href: `#/capture/${one.capture}` }, t('Look at it')),
      button('', t('Close it…'), () => closeCapture(one, night, draw), { class: 'small', 'aria-label': t('Close {name} without an identity', { name: one.name }) })))));
}

// What comes after the last capture: the report, and the next night that waits.
function afterwards(night) {
  return el('section.afterwards', { 'aria-label': t('What comes next') },
    el('p.done', {}, night.unusable.length ? t('Every capture with a photo that can be matched is settled.') : t('This night is settled.')),
    el('div.actions', {}, el('a.act.main', { href: `#/report/${night.night}` }, t('Report of the night')),
      el('a.act', { href: `/report/${night.night}?for=everybody`, target: '_blank', rel: 'noopener' }, t('Print it')),
      night.next_open ? el('a.act', { href: `#/night/${night.next_open}` }, t('Next open night, {next_open}', { next_open: night.next_open })) : el('span.why', {}, t('No other night is open.'))));
}

export async function show(root, [date], still) {
  let timer = 0, asked = 0, lookWhenRanked = false;
  const draw = async () => {
    const mine = ++asked;
    const night = await queueOf(date, true);
    if (!still() || mine !== asked) return; // a newer answer is on its way
    if (!night.night) {
      return fill(root, el('h1', {}, t('Nothing is in this catalogue yet')),
        el('p', {}, el('a.button.main', { href: '#/evening', 'data-first': true }, t('Take in a night')), t(' or use '), el('code', {}, 'evet intake'), '.'));
    }
    const sure = night.queue.filter((one) => one.advice === 'same' || one.advice === 'new');
    const accept = async () => {
      if (!sure.length) return;
      await say('/api/accept', { captures: sure.map((one) => one.capture), generation: night.generation });
      await refreshHello();
      reload();
    };
    // What needs eyes goes first; what the program is sure of after it.
    const look = () => {
      if (!night.queue.length) return;
      // Before the captures are compared nobody knows which is the first.
      if (night.ranking.running && !night.generation) { lookWhenRanked = true; return draw(); }
      lookWhenRanked = false;
      go(`capture/${(night.queue.find((one) => !sure.includes(one)) ?? night.queue[0]).capture}`);
    };
    if (lookWhenRanked && !night.ranking.running) return look();
    const chooser = el('select', { 'aria-label': t('Another night'), onchange: () => go(`night/${chooser.value}`) },
      session.hello.nights.map((one) => el('option', { value: one.night, selected: one.night === night.night },
        `${one.night}: ${counted(one.captures, '{n} capture', '{n} captures')}${one.unsettled ? t(', {unsettled} open', { unsettled: one.unsettled }) : ''}`)));
    const ranking = night.ranking.running
      ? el('p.waiting', { role: 'status' }, night.ranking.all ? t('Comparing with the catalogue: {done} of {all}.', { done: night.ranking.done, all: night.ranking.all }) : t('Comparing with the catalogue…'), lookWhenRanked && t(' The first to look at opens as soon as that is known.'))
      : night.ranking.failed ? el('p.problem', { role: 'alert' }, night.ranking.failed) : null;
    const eyes = night.queue.filter((one) => !sure.includes(one));
    refill(root,
      el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, t('Night of {night}', { night: dateInWords(night.night) })), el('span.places', {}, night.places.join('; ')), chooser),
      glance(night), ranking,
      night.queue.length || night.ranking.running ? null : afterwards(night),
      el('div.actions', {},
        night.queue.length ? button('Enter', t('Look at the first'), look, { class: 'main' }) : null,
        sure.length ? button('a', t('Accept {what} the program is sure of', { what: sure.length === 1 ? t('the one') : t('the {sure}', { sure: sure.length }) }), accept) : null,
        el('a.act', { href: '#/pair' }, t('Compare any two')), button('', t('Wrong date or place…'), () => moveNight(night.night), { class: 'quiet' }),
        undoButtons(night)),
      sure.length ? [el('h2', {}, tableCaption(t('The program is sure'), sure.length)),
        el('p.why', {}, t('Each beside its match. Nothing is recorded until you accept them, or say so yourself.')),
        el('ol.rows', {}, sure.map(sureRow))] : null,
      eyes.length || night.ranking.running ? el('h2', {}, tableCaption(t('Needs eyes'), eyes.length)) : null,
      eyes.length && night.costs ? el('p.costs', {}, t('What a look gains most on comes first. {costs}', { costs: night.costs })) : null,
      el('ol.rows', {}, eyes.map(waitingRow)),
      night.unusable.length ? [el('h2', {}, tableCaption(t('Unusable'), night.unusable.length)), el('ul.rows', {}, night.unusable.map((one) => unusableRow(one, night, reload)))] : null,
      night.settled.length ? [el('h2', {}, tableCaption(t('Settled'), night.settled.length)), el('ul.rows', {}, night.settled.map(settledRow))] : null,
      night.closed.length ? [el('h2', {}, tableCaption(t('Closed'), night.closed.length)), el('ul.rows', {}, night.closed.map(closedRow))] : null);
    useKeys([{ key: 'Enter', label: t('Look at the first'), run: look },
      { key: 'a', label: t('Accept what the program is sure of'), run: accept },
      ...undoButtons.keys(night)]);
    clearTimeout(timer);
    if (night.ranking.running) timer = setTimeout(() => still() && draw().catch(() => {}), 700);
  };
  // What was said on the way here may reach the disk only after the night was asked for.
  const silence = onSaved((state) => { if (state === 'saved' && still()) draw().catch(() => {}); });
  await draw();
  return () => { clearTimeout(timer); silence(); };
}
