// An evening before it is taken in: photos come, are gathered into captures, the sheet is written beside them.
import { get, post, session } from './api.js';
import { counted, el, fill } from './dom.js';
import { command, word } from './command.js';
import { drawGrid } from './evening_grid.js';
import { chosen, photoDialog } from './evening_photos.js';
import { useKeys } from './keys.js';
import { go, refreshHello } from './place.js';
import { sentence } from './parts.js';
import { enqueue, filesIn, forgetRefused, onUpload, secondsLeft, uploading } from './upload.js';
import { t } from './words.js';

const clock = (seconds) => (seconds >= 90 ? counted(Math.round(seconds / 60), '{n} minute', '{n} minutes') : counted(seconds, '{n} second', '{n} seconds'));

function progressOf(state) {
  const left = uploading() && !state.waiting ? secondsLeft() : null;
  return [
    state.all > 0 && el('p', { role: 'status' }, uploading() ? t('Photo {min} of {all} is on its way', { min: Math.min(state.done + 1, state.all), all: state.all }) : t('{photos} came over', { photos: counted(state.done, '{n} photo', '{n} photos') }),
      left !== null && left > 0 ? t(', about {left} left', { left: clock(left) }) : '', '.'),
    uploading() && el('progress', { max: String(state.bytesAll || 1), value: String(state.bytesDone), 'aria-label': t('Photos on their way') }),
    state.again > 0 && el('p.why', {}, counted(state.again, '{n} photo was here already.', '{n} photos were here already.')),
    state.waiting && el('p.problem', { role: 'alert' }, state.waiting),
    (state.refused.length > 0 || state.notPictures.length > 0) && el('div.problem', { role: 'alert' },
      state.refused.length > 0 && el('ul', {}, state.refused.slice(0, 20).map((one) => el('li', {}, sentence(one.why)))),
      state.refused.length > 20 && el('p', {}, t('and {refused} more.', { refused: state.refused.length - 20 })),
      state.notPictures.length > 0 && el('p', {}, t('Left aside, since only JPEG, PNG, TIFF and HEIC are pictures here: {notpictures}{what}.', { notpictures: state.notPictures.slice(0, 5).join(', '), what: state.notPictures.length > 5 ? t(' and {notpictures} more', { notpictures: state.notPictures.length - 5 }) : '' })),
      el('button.small', { type: 'button', onclick: forgetRefused }, t('Seen')))];
}

class Page {
  constructor(root, still) {
    Object.assign(this, { root, still, evening: null, drawn: '', timer: 0, taking: false, broken: '', allColumns: false, inputs: new Map(), spite: '' });
    this.parts = { came: el('div.came'), watched: el('div'), rest: el('div') };
  }

  async refresh() {
    clearTimeout(this.timer);
    try {
      this.take(await get('/api/evening'), false);
      this.tell('');
    } catch (error) {
      this.tell(error.status ? error.message : t('The program does not answer. What you wrote is kept; this page goes on when it is there again.'));
    }
    if (!this.still()) return;
    const { taking, photos } = this.evening ?? { taking: {}, photos: [] };
    const busy = uploading() || taking.running || photos.some((one) => !one.left_out && (!one.judged || one.looking));
    this.timer = setTimeout(() => this.still() && this.refresh(), busy ? 900 : 4000);
  }

  tell(words) {
    if (words === this.broken) return;
    this.broken = words;
    this.draw();
  }

  // Acts one after the other: what was written first is there first.
  act(path, body) {
    this.acting = (this.acting ?? Promise.resolve()).then(async () => {
      const evening = await post(`/api/evening/${path}`, body);
      if (path === 'take') this.taking = true; // and not before: news from before it would seem to be its end
      this.take(evening, true);
      this.tell('');
    }).catch((error) => this.tell(error.message));
    return this.acting;
  }

  // `asked`: the answer to an act of this window, not news that came by itself.
  take(evening, asked) {
    const done = this.taking && !evening.taking.running;
    this.evening = evening;
    chosen.keep(evening);
    const drawn = JSON.stringify(evening);
    if (drawn !== this.drawn) {
      this.drawn = drawn;
      if (asked || !document.activeElement?.matches('.view select')) this.draw();
      else this.waits = true; // a list that is open would close
    }
    if (evening.taking.running) this.taking = true;
    if (done) this.taken(evening.taking);
  }

  async taken({ failed, outcome }) {
    this.taking = false;
    await refreshHello();
    const night = outcome?.nights[0] ?? outcome?.nothing_caught;
    if (!failed && !outcome.noticed.length && outcome.nights.length) go(`night/${night}`);
  }

  fileInput(id, more) {
    const input = el('input', { type: 'file', id, multiple: true, ...more,
      onchange: () => { enqueue([...input.files], this.evening.photos); input.value = ''; } });
    return input;
  }

  dropZone() {
    const zone = el('section.drop', { 'aria-labelledby': 'photos-heading' },
      el('h2', { id: 'photos-heading' }, t('1  Photos')),
      el('p', {}, t('Drop photos or a card’s folder here, or')),
      el('div.actions', {},
        el('label.button.main.pick', {}, t('Choose photos'), this.fileInput('pick-photos', { accept: 'image/*,.heic,.heif,.tif,.tiff' })),
        el('label.button.pick', {}, t('Choose a folder'), this.fileInput('pick-folder', { webkitdirectory: true })),
        el('a.button', { href: '#/tray' }, t('Photograph here'))),
      this.parts.came, this.parts.watched,
      command('evet sheet CATALOGUE SHEET.csv PHOTOS', 'evet inspect PHOTO --out FOLDER'));
    zone.addEventListener('dragover', (event) => { if (event.dataTransfer.types.includes('Files')) { event.preventDefault(); zone.classList.add('over'); } });
    zone.addEventListener('dragleave', () => zone.classList.remove('over'));
    zone.addEventListener('drop', async (event) => {
      if (!event.dataTransfer.types.includes('Files')) return;
      event.preventDefault();
      zone.classList.remove('over');
      enqueue(await filesIn(event.dataTransfer.items), this.evening.photos);
    });
    return zone;
  }

  // Photos that another program puts into a folder: a camera on its cable, a phone's sync.
  watched() {
    const { folder, there, refused } = this.evening.watched;
    return [there ? el('p.why', {}, t('Photos that are put into '), el('code', {}, folder), t(' are taken from there.'))
      : el('p', {}, el('button.small', { type: 'button', id: 'watch', onclick: () => this.act('watch', {}) }, t('Take photos from a folder as they come…'))),
    refused.length > 0 && el('ul.problem', {}, refused.slice(0, 20).map((one) => el('li', {}, sentence(one))))];
  }

  takeIn() {
    const { check, taking, captures, folder, photos_folder: photos, sheets_folder: sheets, sheet } = this.evening;
    const nothing = captures.some((one) => one.nothing_caught);
    const ready = captures.length > 0 && !check.faults.length && !taking.running && !uploading();
    const told = () => !check.asks.length || this.spite.trim();
    const what = nothing ? t('Write down a night without a catch') : t('Take in {captures} with {photos}', { captures: counted(captures.length, '{n} capture', '{n} captures'), photos: counted(captures.reduce((n, one) => n + one.photos.length, 0), '{n} photo', '{n} photos') });
    const begin = () => this.act('take', check.asks.length ? { in_spite: this.spite.trim() } : {});
    const take = el('button.main', { type: 'button', id: 'take', disabled: !ready || !told(), onclick: begin }, what);
    // The button follows what is typed; nothing is drawn anew under the hand.
    const why = el('input', { id: 'in-spite', type: 'text', maxlength: '300', value: this.spite, oninput: () => { this.spite = why.value; take.disabled = !ready || !told(); } });
    const asks = check.asks.length > 0 && el('div.problem', { role: 'group', 'aria-label': t('What is asked before the night is taken in') },
      el('ul', {}, check.asks.map((one) => el('li', {}, sentence(one.sentence)))),
      el('div.form', {}, el('label', { for: 'in-spite' }, t('Mend it in the sheet. If it is right all the same, say why')), why));
    return el('section.panel', { 'aria-labelledby': 'take-heading' },
      el('h2', { id: 'take-heading' }, t('3  Take the night in')),
      check.noticed.length > 0 && el('ul.noticed', {}, check.noticed.map((one) => el('li', {}, sentence(one)))),
      check.photos_known > 0 && el('p.why', {}, counted(check.photos_known, '{n} photo of these is in the catalogue already and not added again.', '{n} photos of these are in the catalogue already and not added again.')),
      taking.running ? el('p.waiting', { role: 'status' }, t('{stage}: {done} of {all}. It can be stopped at any moment and carries on.', { stage: sentence(taking.stage).replace('.', ''), done: taking.done, all: taking.all }))
        : [asks, take],
      !taking.running && !ready && captures.length > 0 && el('p.why', {}, uploading() ? t('Photos are still on their way.') : t('{cells} must be mended first.', { cells: counted(check.faults.length, '{n} cell', '{n} cells') })),
      taking.failed && el('p.problem', { role: 'alert' }, sentence(taking.failed)),
      !taking.failed && taking.outcome && el('div.outcome', { role: 'status' },
        el('p', {}, taking.outcome.nights.length ? t('Last taken in: {captures} with {photos} of {nights}.', { captures: counted(taking.outcome.captures, '{n} capture', '{n} captures'), photos: counted(taking.outcome.photos, '{n} photo', '{n} photos'), nights: taking.outcome.nights.join(', ') }) : t('Written down: nothing was caught on {nothing_caught}.', { nothing_caught: taking.outcome.nothing_caught }),
          ' ', taking.outcome.nights.length > 0 && el('a', { href: `#/night/${taking.outcome.nights[0]}` }, t('Settle it'))),
        taking.outcome.noticed.length > 0 && el('ul.noticed', {}, taking.outcome.noticed.map((one) => el('li', {}, sentence(one))))),
      command(`evet intake ${word(folder)} ${word(`${sheets}/${sheet}`)} ${word(photos)} --by ${word(session.reader)}${check.asks.length ? ' --in-spite "WHY"' : ''}`));
  }

  // What is being typed is not taken from under the hand: drawn when the hand goes on.
  draw() {
    if (!this.evening) return;
    const { evening } = this;
    const held = this.root.contains(document.activeElement) ? document.activeElement : null;
    if (this.dragging) {
      this.waits = true;
      return;
    }
    this.waits = Boolean(held?.matches('input:not([type=checkbox], [type=file])') && held.value !== held.defaultValue);
    if (this.waits) return;
    const selected = held?.matches('input[type=text]') ? [held.selectionStart, held.selectionEnd] : null;
    const scrolled = this.root.querySelector('.grid-scroll')?.scrollLeft ?? 0;
    fill(this.parts.watched, this.watched());
    fill(this.parts.rest,
      evening.warnings.map((one) => el('p.problem', {}, one)),
      this.broken && el('p.problem', { role: 'alert' }, this.broken),
      drawGrid(this),
      this.takeIn());
    if (held?.id && document.activeElement !== held) {
      const again = document.getElementById(held.id);
      again?.focus({ preventScroll: true });
      if (selected) again?.setSelectionRange(...selected); // or what is typed next would stand before the old text
    }
    const grid = this.root.querySelector('.grid-scroll');
    if (grid) grid.scrollLeft = scrolled;
  }

  drawCame(state) {
    fill(this.parts.came, progressOf(state));
  }

  keys() {
    const look = () => chosen.first(this.evening) && photoDialog(this.evening, chosen.first(this.evening));
    return [
      { key: 'x', label: t('Chosen photos: a capture of their own'), run: () => chosen.apart(this) },
      { key: 't', label: t('Chosen photos: together with the first'), run: () => chosen.together(this) },
      { key: 'o', label: t('Chosen photos: leave out'), run: () => chosen.leaveOut(this) },
      { key: 'l', label: t('Look at the chosen photo'), run: look },
      { key: 'Escape', label: t('Choose none'), run: () => { chosen.clear(); this.draw(); } }];
  }
}

export async function show(root, _rest, still) {
  const page = new Page(root, still);
  await page.refresh();
  if (!page.evening) throw new Error(page.broken);
  fill(root, el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, t('New night')), el('span.places', {}, session.hello.title)),
    page.dropZone(), page.parts.rest);
  const silence = onUpload((state) => {
    page.drawCame(state);
    if (!uploading()) page.refresh();
  });
  root.addEventListener('focusout', () => setTimeout(() => page.waits && still() && page.draw()));
  page.drawCame({ all: 0, again: 0, refused: [], notPictures: [] });
  page.draw();
  useKeys(page.keys());
  return () => { clearTimeout(page.timer); silence(); };
}
