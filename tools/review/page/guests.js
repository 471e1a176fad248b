// On the machine itself: who reads here by the passphrase, from where, and who asks to read on under a code that another
// browser has. Nobody reads under a code unseen, and none is taken over without a yes.
import { get, post } from './api.js';
import { button, counted, el, fill } from './dom.js';
import { t } from './words.js';

const EVERY_MS = 4000;
const seen = new Set(JSON.parse(sessionStorage.getItem('evet.guests') ?? '[]'));
const ago = (seconds) => (seconds >= 90 ? t('{minutes} ago', { minutes: counted(Math.round(seconds / 60), '{n} minute', '{n} minutes') }) : t('{seconds} ago', { seconds: counted(seconds, '{n} second', '{n} seconds') }));
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
  const other = guest.other_heard_s_ago === undefined ? '' : t(' That one was heard of last {ago}.', { ago: ago(guest.other_heard_s_ago) });
  return el('li.problem', {}, el('span', {}, t('A browser at {from} wants to read on as {reader}, which another browser does.{other} Ask {reader}.', { from: guest.from, reader: guest.reader, other })),
    button('', t('It is {reader}', { reader: guest.reader }), () => answer(guest, true), { class: 'small' }), button('', t('It is not'), () => answer(guest, false), { class: 'small' }));
}
function fresh(guest, guests) {
  return el('li', {}, el('span', {}, t('{reader} writes from {from} now.', { reader: guest.reader, from: guest.from })),
    button('', t('I know'), () => { note(guest); draw(guests); }, { class: 'small', 'aria-label': t('I know that {reader} writes from {from}', { reader: guest.reader, from: guest.from }) }), button('', t('That is not {reader}', { reader: guest.reader }), () => answer(guest, false), { class: 'small' }));
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
  const stands = { asks: t('asks'), reads: t('reads'), sent_away: t('sent away') };
  const say = (guest, yes) => answer(guest, yes).then(redraw);
  return guests.length ? el('ul', {}, guests.map((one) => el('li', {}, t('{reader} at {from}: {stands}, heard of {ago} ', { reader: one.reader, from: one.from, stands: stands[one.stands], ago: ago(one.heard_s_ago) }),
    one.stands === 'reads' ? button('', t('Send away'), () => say(one, false), { class: 'small', 'aria-label': t('Send {reader} at {from} away', { reader: one.reader, from: one.from }) })
      : button('', t('Let in'), () => say(one, true), { class: 'small', 'aria-label': t('Let {reader} at {from} in', { reader: one.reader, from: one.from }) })))) : el('p', {}, t('Nobody has written from another machine yet.'));
}

export function watchGuests() {
  node = el('div.guests', { role: 'status', 'aria-label': t('Who reads here from other machines') });
  document.querySelector('header').after(node);
  const look = async () => {
    await get('/api/guests').then(({ guests }) => draw(guests)).catch(() => {});
    setTimeout(look, EVERY_MS);
  };
  look();
}
