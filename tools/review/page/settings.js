// How this browser shows the page, and how this catalogue weighs errors.
import { get, session } from './api.js';
import { command, folder } from './command.js';
import { el, fill } from './dom.js';
import { guestList } from './guests.js';
import { showKeys, useKeys } from './keys.js';
import { say } from './outbox.js';
import { reload } from './place.js';
import { t } from './words.js';

const fact = (what, value) => [el('dt', {}, what), el('dd', {}, value)];

function costsForm(settings) {
  const number = (id, value, least) => el('input.number', { id, type: 'number', min: least, step: 'any', required: true, value: String(value) });
  const wrong = number('wrong_join', settings.costs.wrong_join, '0.001'), look = number('look', settings.costs.look, '0'), told = el('span.why', { role: 'status' });
  const keep = async (event) => {
    event.preventDefault();
    told.textContent = t('Saving…');
    try {
      await say('/api/costs', { wrong_join: Number(wrong.value), look: Number(look.value) });
      reload();
    } catch (error) {
      told.textContent = error.message;
      told.classList.add('problem');
    }
  };
  return el('form.form', { onsubmit: keep },
    el('span.field', {}, el('label', { for: 'wrong_join' }, t('A wrong join is as bad as so many missed ones')), wrong),
    el('span.field', {}, el('label', { for: 'look' }, t('A look costs so much of a missed join')), look), el('button', { type: 'submit' }, t('Keep for this catalogue')), told);
}

export async function show(root) {
  const settings = await get('/api/settings');
  const themes = [['dark', t('Dark, for eyes that have to see in the night afterwards')], ['light', t('Light, for the day')]];
  const theme = document.documentElement.dataset.theme;
  const toTheme = (wanted) => { if (document.documentElement.dataset.theme !== wanted) document.getElementById('light').click(); };
  fill(root, el('h1', { tabindex: '-1', 'data-first': true }, t('Settings')),
    el('h2', {}, t('In this browser')),
    el('fieldset', {}, el('legend', {}, t('Theme')), themes.map(([name, words]) => el('label.choice', {}, el('input', { type: 'radio', name: 'theme', value: name, checked: theme === name, onchange: () => toTheme(name) }), ` ${words}`))),
    el('div.actions', {}, el('span', {}, t('Verdicts are signed {reader}.', { reader: session.reader })), el('button', { type: 'button', onclick: () => document.getElementById('reader').click() }, t('Change the observer code')),
      el('button', { type: 'button', onclick: showKeys }, t('Keys, and whether single letters work'))),
    session.hello.shared && !session.hello.guest ? [el('h2', {}, t('Who reads here from other machines')), await guestList(reload)] : null,
    el('h2', {}, t('Of this catalogue')), el('p', {}, settings.costs_words, settings.costs_by ? t(' Said by {by} on {time}.', { by: settings.costs_by.by, time: settings.costs_by.time.slice(0, 10) }) : t(' As the program comes.')), costsForm(settings),
    command(`evet rank ${folder()} --costs "a wrong join is ten times worse than a missed one" --keep-costs`),
    el('dl', {},
      fact(t('Calibration'), settings.calibration ? t('this catalogue\'s own, from {individuals} individuals, by {by} on {time}', { individuals: settings.calibration.individuals, by: settings.calibration.by, time: settings.calibration.time.slice(0, 10) })
        : settings.calibration_of_other_weights ? t('as the program comes; this catalogue’s own was learned with other weights') : t('as the program comes; evet trial CATALOGUE --refit learns this catalogue’s own')),
      settings.folder && fact(t('Folder'), el('code', {}, settings.folder)), fact(t('Program'), settings.program), fact(t('Ledger head'), el('code', {}, settings.ledger_head))));
  useKeys([]);
}
