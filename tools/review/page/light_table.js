// One capture on the light table: its candidates one by one, a verdict, and on to the next.
import { forgetAhead, load, lookAhead } from './ahead.js';
import { forgetPictures, get } from './api.js';
import { closeCapture } from './closing.js';
import { command, verdictCommand } from './command.js';
import { comparer } from './compare.js';
import { button, el, fill, percent, refill } from './dom.js';
import { judgedPanel, remember } from './judged.js';
import { addKeys, useKeys } from './keys.js';
import { judgedInQueue, queueOf } from './night.js';
import { asking, say } from './outbox.js';
import { chooseCapture } from './pair.js';
import { ANSWERS, notesOf, undoButtons } from './parts.js';
import { go, refreshHello, reload } from './place.js';
import { sayWeighed, weighed } from './weigh.js';
import { t } from './words.js';

let saving = Promise.resolve(); // the last verdict on its way

export async function show(root, [id], still) {
  let capture = await load(id);
  let night = await queueOf(capture.night);
  const order = night.queue.map((one) => one.capture);
  const at = order.indexOf(id);
  const waiting = (one) => one.capture !== id && !one.open;
  const next = (night.queue.slice(at + 1).find(waiting) ?? night.queue.find(waiting))?.capture;
  const table = comparer();
  const scrolls = el('div.scrolls'), dock = el('div.dock'), undo = el('div.moves');
  const side = el('div.side', {}, scrolls, dock);
  let over = false; // judged: a key that comes before the next capture is drawn is not meant for this one
  let chosen = Math.max(0, capture.candidates.findIndex((one) => !one.mine));
  let own = 0, other = 0; // which photo of the capture; which photo of the candidate

  const usable = () => capture.photos.filter((photo) => photo.usable);
  const candidate = () => capture.candidates[chosen];
  const candidatePhotos = () => {
    const one = candidate();
    return one ? [one.photo, ...one.captures.flatMap((each) => each.photos).filter((photo) => photo !== one.photo)] : [];
  };
  const capturePhotos = () => {
    const all = usable().map((photo) => photo.photo), best = candidate()?.query_photo;
    return best && all.includes(best) ? [best, ...all.filter((photo) => photo !== best)] : all;
  };
  const captureOf = (photo) => candidate().captures.find((each) => each.photos.includes(photo))?.capture ?? candidate().capture;

  function lay() {
    const mine = capturePhotos(), theirs = candidatePhotos();
    if (mine.length) table.lay(mine[own % mine.length], theirs[other % (theirs.length || 1)], [t('capture {name}', { name: capture.name }), t('candidate {individual}', { individual: candidate()?.individual })]).catch((error) => fill(scrolls, el('p', { role: 'alert' }, error.message)));
    drawSide();
  }
  const choose = (i) => {
    if (!capture.candidates.length) return;
    chosen = (i + capture.candidates.length) % capture.candidates.length;
    own = other = 0;
    lay();
  };
  const turn = (which) => { if (which === 'own') own += 1; else other += 1; lay(); };

  const reason = el('input', { id: 'reason', maxlength: '1000', autocomplete: 'off', placeholder: t('what decided it') });
  const told = el('p.told', { role: 'status' });
  async function verdict(answer) {
    const one = candidate();
    if (over || (answer !== 'new' && !one)) return;
    over = true; // while it is weighed no second word is taken
    const body = { capture: id, answer, reason: reason.value.trim(), generation: capture.generation };
    if (answer !== 'new') body.other = captureOf(candidatePhotos()[other % candidatePhotos().length]);
    const words = answer === 'new' ? 'new' : `${ANSWERS[answer]} – ${one.individual}`;
    const title = `${capture.name}: ${words}`;
    let ready;
    try {
      ready = await asking(async () => {
        // What was said last may speak against it.
        await Promise.race([saving, new Promise((resolve) => setTimeout(resolve, 500))]);
        return answer === 'same' || answer === 'new' ? weighed(body, title) : body;
      });
    } catch (error) {
      told.textContent = error.message;
    }
    over = false;
    if (!ready || !still()) return;
    const saved = sayWeighed('/api/verdict', ready, title);
    reason.value = '';
    saving = saved.catch(() => {});
    if (answer !== 'different') judgedInQueue(id, answer === 'cannot_tell', saved);
    saved.then(() => remember(capture, one, words)).then(refreshHello).catch(() => {});
    if (answer === 'different') {
      one.mine = 'different';
      const open = capture.candidates.findIndex((each) => !each.mine);
      if (open >= 0) return choose(open);
      return drawSide();
    }
    over = true;
    forward();
  }
  const forward = () => go(next ? `capture/${next}` : `night/${capture.night}`);
  const back = () => go(at > 0 ? `capture/${order[at - 1]}` : `night/${capture.night}`);

  async function turnOver() {
    const photo = capturePhotos()[own % capturePhotos().length];
    if (!photo) return;
    told.textContent = t('Turning the strip end for end…');
    try {
      await say('/api/turn', { capture: id, photo });
      forgetPictures();
      forgetAhead();
      reload();
    } catch (error) {
      told.textContent = error.message;
    }
  }

  const close = () => closeCapture(capture, night, () => { judgedInQueue(id, false, Promise.resolve({ position: 0 })); forward(); });

  async function setAside() {
    const photo = capturePhotos()[own % capturePhotos().length];
    if (!photo) return;
    await say('/api/usable', { capture: id, photo, usable: false, reason: reason.value.trim() });
    forgetAhead();
    reload();
  }

  // The answer that the program advises, and of which candidate.
  const advised = (answer) => (answer === 'same' ? capture.advice === 'same' && chosen === 0 : answer === 'new' && capture.advice === 'new');
  function advice() {
    if (!capture.why?.length || capture.settled || capture.closed) return null;
    const words = { same: t('Advised: same as {individual}', { individual: capture.candidates[0]?.individual }), new: t('Advised: new'), look: t('Look yourself') }[capture.advice];
    return words && el('section.advice', { 'aria-label': t('What the program advises') }, el('strong', {}, words), capture.why.map((why) => el('span.why', {}, why)));
  }

  function candidateRow(one, i) {
    return el('li', {}, el('button', { type: 'button', 'data-individual': one.individual_id, 'aria-pressed': String(i === chosen), onclick: () => choose(i) },
      el('img.thumb', { src: `/strip/${one.photo}`, alt: '', loading: 'lazy', width: '20', height: '64' }),
      el('span.name', {}, one.individual,
        one.mine ? el('span.mine', {}, t('you: {answers}', { answers: ANSWERS[one.mine] }))
          : one.ruled_out?.length ? el('span.mine', {}, one.ruled_out.map((said) => t('different by {by} on {on}', { by: said.by, on: said.on })).join(', ')) : null),
      el('span.p', {}, one.probability !== undefined && percent(one.probability), i === 0 && capture.advice === 'same' && el('span.mine', {}, t('advised')))));
  }

  const drawUndo = () => refill(undo, undoButtons(night));
  function drawSide() {
    drawUndo();
    const left = order.length - (at >= 0 ? at : 0);
    const photos = capturePhotos(), theirs = candidatePhotos();
    const allDifferent = capture.candidates.length > 0 && capture.candidates.every((one) => one.mine === 'different' || (!one.mine && one.ruled_out?.length));
    refill(scrolls,
      el('p.place', {}, el('a', { href: `#/night/${capture.night}` }, t('Night')), ` · ${at >= 0 ? t('{at} of {order}', { at: at + 1, order: order.length }) : capture.settled ? t('settled: {settled}', { settled: capture.settled }) : capture.closed ? t('closed: {closed}', { closed: capture.closed }) : t('not in the queue')}`),
      el('h1', {}, capture.name),
      capture.disputed ? el('p.problem', {}, t('Readers contradict each other: '), el('a', { href: '#/disputes' }, t('see the dispute'))) : null,
      usable().length ? null : [el('p.problem', {}, t('No photo of this capture can be used.')),
        ...capture.photos.map((photo) => el('p.why', {}, ...notesOf(photo), el('a', { href: `#/midline/${id}/${photo.photo}` }, t('Draw the midline on {name}', { name: photo.name }))))],
      capture.photos.filter((photo) => photo.usable && photo.notes.length).map((photo) => el('p.why', {}, ...notesOf(photo))),
      advice(),
      usable().length ? el('h2', {}, capture.settled ? t('Its other captures') : t('Candidates')) : null,
      !usable().length ? null : capture.candidates.length ? el('ol.candidates', {}, capture.candidates.map(candidateRow))
        : el('p.why', { role: 'status' }, capture.ranked ? t('Nobody to compare it with.') : t('Comparing with the catalogue…')),
      capture.new_probability !== null && capture.candidates.length ? el('p.why', {}, t('New: {new_probability}', { new_probability: percent(capture.new_probability) })) : null,
      capture.twins.map((one) => el('p.why', {}, t('May be one new animal with {name} of this night, {probability}: ', { name: one.name, probability: percent(one.probability) }),
        el('a', { href: `#/pair/${id}/${one.capture}` }, t('hold them together')))),
      allDifferent ? el('p.why', {}, t('All candidates judged different: is it new?')) : null,
      judgedPanel() ?? el('section.judged', { hidden: true }),
      command(...[candidate() && verdictCommand(capture.name, 'same', candidate().individual), verdictCommand(capture.name, 'new'), verdictCommand(capture.name, 'not-identifiable')].filter(Boolean)));
    refill(dock,
      photos.length > 1 || theirs.length > 1 ? el('div.turns', {},
        photos.length > 1 && button('[', t('Capture, photo {own} of {photos}', { own: own % photos.length + 1, photos: photos.length }), () => turn('own'), { class: 'small' }),
        theirs.length > 1 && button(']', t('Candidate, photo {other} of {theirs}', { other: other % theirs.length + 1, theirs: theirs.length }), () => turn('other'), { class: 'small' })) : null,
      el('div.moves', {}, button('←', t('Back'), back, { class: 'small' }), button('→', left > 1 ? t('Leave it, next') : t('Leave it'), forward, { class: 'small' }),
        usable().length ? [button('e', t('Turn'), turnOver, { class: 'small', title: t('Turn the strip end for end') }), el('a.small', { href: `#/midline/${id}/${photos[own % photos.length]}` }, t('Midline')),
          button('x', t('Set photo aside'), setAside, { class: 'small' }), button('h', t('Hold against…'), against, { class: 'small' })] : null,
        capture.settled ? null : button('q', t('Close…'), close, { class: 'small', title: t('Close it without an identity: no animal, not identifiable, the same as another') })),
      undo, told,
      el('label.reason', { for: 'reason' }, el('span', {}, el('kbd', {}, 'R'), t(' Reason')), reason),
      // Last, at the foot: whatever comes and goes above, these stay where they are.
      el('div.verdicts', {}, [['S', 'same', t('＝ Same')], ['D', 'different', t('≠ Different')], ['C', 'cannot_tell', t('? Cannot tell')], ['N', 'new', t('✶ New')]]
        .map(([key, answer, label]) => button(key, el('span', {}, label, advised(answer) && el('span.advised', {}, t(' advised'))), () => verdict(answer),
          { class: `${answer === 'cannot_tell' ? 'cannot' : answer}${advised(answer) ? ' is-advised' : ''}`, disabled: answer !== 'new' && !candidate() }))));
  }
  const against = () => chooseCapture(t('Hold {name} against', { name: capture.name }), (found) => go(`pair/${id}/${found.capture}`));

  // Without a strip the photo itself lies there, and says why.
  const [bare] = usable().length ? [] : capture.photos;
  fill(root, bare ? el('section.table', { 'aria-label': t('The photo') }, el('div.stage', {}, el('img', { src: `/photo/${bare.photo}`, alt: t('Photo {name}', { name: bare.name }) }))) : table.node, side);
  useKeys([
    { key: 's', label: t('Same'), run: () => verdict('same') },
    { key: 'd', label: t('Different'), run: () => verdict('different') },
    { key: 'c', label: t('Cannot tell'), run: () => verdict('cannot_tell') },
    { key: 'n', label: t('New: none of these'), run: () => verdict('new') },
    { key: 'r', label: t('Write a reason'), run: () => reason.focus() },
    { key: 'ArrowDown', label: t('Next candidate'), run: () => choose(chosen + 1) },
    { key: 'ArrowUp', label: t('Candidate before'), run: () => choose(chosen - 1) },
    { key: '[', label: t('Another photo of the capture'), run: () => turn('own') },
    { key: ']', label: t('Another photo of the candidate'), run: () => turn('other') },
    { key: 'ArrowRight', label: t('Leave it, next capture'), run: forward },
    { key: 'ArrowLeft', label: t('Capture before'), run: back },
    { key: 'x', label: t('Set this photo aside'), run: setAside },
    { key: 'e', label: t('Turn the strip end for end'), run: turnOver },
    { key: 'h', label: t('Hold it against any other capture'), run: against },
    { key: 'q', label: t('Close it: no animal, not identifiable, the same as another'), run: close },
    { key: 'z', label: t('Undo your last word'), run: () => undoButtons.keys(night)[0].run() },
    { key: 'y', label: t('Redo it'), run: () => undoButtons.keys(night)[1].run() },
  ]);
  addKeys(table.keys);
  lay();
  lookAhead(next);
  // The pair is on the table already; what can be undone follows once the last verdict is on disk.
  saving.then(() => still() && queueOf(capture.night, true)).then((fresh) => {
    if (!fresh || !still()) return;
    night = fresh;
    drawUndo();
  }).catch(() => {});

  let timer = 0;
  const wait = async () => {
    if (!still()) return;
    capture = await get(`/api/capture/${id}`).catch(() => capture);
    if (!still()) return;
    if (capture.ranked) return lay();
    timer = setTimeout(wait, 700);
  };
  if (!capture.ranked && usable().length) timer = setTimeout(wait, 700);
  return () => { clearTimeout(timer); table.close(); };
}
