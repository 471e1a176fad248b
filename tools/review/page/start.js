// Where everything begins: the catalogues that this machine knows, and a new one.
import { get, post, session } from './api.js';
import { counted, dateInWords, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { command, word } from './command.js';
import { t } from './words.js';

// Another catalogue is another page: everything that was kept of the last one goes.
function goTo(path) {
  location.hash = `#/${path}`;
  location.reload();
}

function row(one, first) {
  const open = async () => {
    if (!one.open) await post('/api/catalogues/open', { id: one.id });
    goTo(one.evening_waits ? 'evening' : 'night');
  };
  return el('li', {}, el('div.row.catalogue', {}, el('span.what', {},
    el('strong', {}, one.title),
    el('span.why', {}, one.folder),
    one.last_night && el('span.why', {}, t('last night {last_night}', { last_night: dateInWords(one.last_night) })),
    one.evening_waits && el('span.why', {}, t('an evening waits to be taken in')),
    one.trouble && el('span.problem', {}, one.trouble)),
  !one.trouble && el(one.open ? 'button' : 'button.main', { type: 'button', onclick: open, 'data-first': first,
    'aria-label': t('Open {title}', { title: one.title }) }, one.open ? t('Open already: go on') : t('Open'))));
}

export async function show(root) {
  const { catalogues, folder, makes } = await get('/api/catalogues');
  const title = el('input', { id: 'new-title', maxlength: '80', required: true, autocomplete: 'off' });
  const problem = el('p.problem', { role: 'alert', hidden: true });
  const folderName = () => title.value.trim().toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'NAME';
  const same = el('div');
  const tell = () => fill(same, command(`evet new ${folder ? `${folder}/` : ''}${folderName()} --title ${word(title.value.trim() || 'NAME')} --by ${word(session.reader)}`));
  title.addEventListener('input', tell);
  tell();
  const make = async (event) => {
    event.preventDefault();
    try {
      await post('/api/catalogues/make', { title: title.value.trim() });
      goTo('evening');
    } catch (error) {
      problem.hidden = false;
      fill(problem, error.message);
    }
  };
  const end = async () => {
    await post('/api/end', {}).catch(() => {});
    fill(root, el('h1', {}, t('The program has ended')), el('p', {}, t('Everything is kept. This window can be closed.')));
  };
  fill(root,
    el('div.heading', {}, el('h1', { tabindex: '-1' }, t('Catalogues')), el('span.places', {}, counted(catalogues.length, '{n} catalogue', '{n} catalogues'), t(' known on this machine'))),
    catalogues.length ? el('ul.rows.catalogues', {}, catalogues.map((one, i) => row(one, i === 0)))
      : el('p', {}, t('None is known here yet. A catalogue holds one site or many, over years: make the first one below.')),
    makes && el('section.panel', { 'aria-labelledby': 'make' },
      el('h2', { id: 'make' }, t('Make a new one')),
      el('form.form', { onsubmit: make }, el('label', { for: 'new-title' }, t('Name, as on reports')), title,
        el('button.main', { type: 'submit' }, t('Make it'))),
      problem, el('p.why', {}, t('It becomes a folder{what}, which can be copied, backed up and opened elsewhere.', { what: folder ? t(' in {folder}', { folder }) : '' })), same),
    el('section.panel', { 'aria-labelledby': 'end' }, el('h2', { id: 'end' }, t('Done for today?')),
      el('p', {}, t('Closing this window leaves the program running.')),
      el('button', { type: 'button', onclick: end }, t('End the program'))));
  useKeys([]);
}
