// A night that was taken in under a wrong date or place: everything said of it goes where it belongs.
import { get, post } from './api.js';
import { by, command, folder } from './command.js';
import { button, el, fill } from './dom.js';
import { go, refreshHello } from './place.js';
import { placeWords } from './query.js';
import { t } from './words.js';

export async function moveNight(night) {
  const places = (await get('/api/calendar')).nights.filter((one) => one.night === night);
  if (!places.length) return;
  const input = (id, value, more = {}) => el('input', { id, value, autocomplete: 'off', maxlength: '200', ...more });
  const which = el('select', { id: 'move-from', onchange: () => take(places[which.selectedIndex]) }, places.map((one) => el('option', {}, placeWords(one))));
  const date = input('move-night', night, { required: true }), site = input('move-site', '', { required: true }), pond = input('move-pond', '');
  const reason = input('move-reason', '', { required: true, maxlength: '1000' }), told = el('p.problem', { role: 'alert', hidden: true });
  const take = (place) => { site.value = place.site; pond.value = place.pond; };
  take(places[0]);
  const tell = (words) => { told.hidden = false; fill(told, words); };
  const move = async (event) => {
    event.preventDefault();
    const from = places[which.selectedIndex];
    try {
      const moved = await post('/api/night/move', { from: { site: from.site, pond: from.pond, night }, to: { site: site.value.trim(), pond: pond.value.trim(), night: date.value.trim() }, reason: reason.value.trim() });
      await refreshHello();
      dialog.close();
      go(from.captures ? `night/${moved.night}` : `report/${moved.night}`);
    } catch (error) {
      tell(error.message);
    }
  };
  const row = (label, node) => el('span.field', {}, el('label', { for: node.id }, label), node);
  const dialog = el('dialog.move', { 'aria-labelledby': 'move-title' }, el('form', { onsubmit: move },
    el('h2', { id: 'move-title' }, t('Everything of {night} belongs to another date or place', { night })),
    el('p.why', {}, t('Its captures go there with their verdicts, and what was done that night too. It stays in the ledger that it stood here.')),
    places.length > 1 && row(t('What was taken in at'), which),
    el('div.row-of', {}, row(t('Night'), date), row(t('Site'), site), row(t('Pond'), pond)), row(t('What was wrong'), reason), told,
    el('div.actions', {}, el('button.main', { type: 'submit' }, t('Move it')), button('Esc', t('Leave it here'), () => dialog.close(), { class: 'quiet' })),
    command(`evet intake ${folder()} MENDED_SHEET.csv PHOTOS --move ${by()}`)));
  dialog.addEventListener('close', () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
  date.select();
}
