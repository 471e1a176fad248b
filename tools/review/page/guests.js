// On the machine itself: who reads here by the passphrase, from where, and who asks to read on under a code that another
// browser has. Nobody reads under a code unseen, and none is taken over without a yes.
import { get, post } from './api.js';
import { button, counted, el, fill } from './dom.js';

const EVERY_MS = 4000;
const seen = new Set(JSON.parse(sessionStorage.getItem('evet.guests') ?? '[]'));
const ago = (seconds) => (seconds >= 90 ? `${counted(Math.round(seconds / 60), 'minute')} ago` : `${counted(seconds, 'second')} ago`);
let node = null, drawn = '';

const answer = async (guest, yes) => {
  const { guests } = await post('/api/guests', { guest: guest.guest, yes });
  note(guest);
  draw(guests);
};
function note(guest) {
  seen.add(`${guest.guest} ${guest.reader}`);
  sessionStorage.setItem('evet.guests', JSON.stringify([...seen]));
}

function asks(guest) {
  const other = guest.other_heard_s_ago === undefined ? '' : ` That one was heard of last ${ago(guest.other_heard_s_ago)}.`;
  return el('li.problem', {}, el('span', {}, `A browser at ${guest.from} wants to read on as ${guest.reader}, which another browser does.${other} Ask ${guest.reader}.`),
    button('', `It is ${guest.reader}`, () => answer(guest, true), { class: 'small' }), button('', 'It is not', () => answer(guest, false), { class: 'small' }));
}
function fresh(guest, guests) {
  return el('li', {}, el('span', {}, `${guest.reader} writes from ${guest.from} now.`),
    button('', 'I know', () => { note(guest); draw(guests); }, { class: 'small', 'aria-label': `I know that ${guest.reader} writes from ${guest.from}` }), button('', `That is not ${guest.reader}`, () => answer(guest, false), { class: 'small' }));
}

function draw(guests) {
  const news = guests.filter((one) => one.stands === 'asks' || (one.stands === 'reads' && !seen.has(`${one.guest} ${one.reader}`)));
  const now = JSON.stringify(news.map(({ guest, reader, stands, from }) => [guest, reader, stands, from]));
  if (now === drawn) return;
  drawn = now;
  fill(node, news.length ? el('ul', {}, news.map((one) => (one.stands === 'asks' ? asks(one) : fresh(one, guests)))) : null);
}

// Every guest, for the settings: who was sent away by mistake is let in again there.
export async function guestList(redraw) {
  const { guests } = await get('/api/guests');
  const stands = { asks: 'asks', reads: 'reads', sent_away: 'sent away' };
  const say = (guest, yes) => answer(guest, yes).then(redraw);
  return guests.length ? el('ul', {}, guests.map((one) => el('li', {}, `${one.reader} at ${one.from}: ${stands[one.stands]}, heard of ${ago(one.heard_s_ago)} `,
    one.stands === 'reads' ? button('', 'Send away', () => say(one, false), { class: 'small', 'aria-label': `Send ${one.reader} at ${one.from} away` })
      : button('', 'Let in', () => say(one, true), { class: 'small', 'aria-label': `Let ${one.reader} at ${one.from} in` })))) : el('p', {}, 'Nobody has written from another machine yet.');
}

export function watchGuests() {
  node = el('div.guests', { role: 'status', 'aria-label': 'Who reads here from other machines' });
  document.querySelector('header').after(node);
  const look = async () => {
    await get('/api/guests').then(({ guests }) => draw(guests)).catch(() => {});
    setTimeout(look, EVERY_MS);
  };
  look();
}
