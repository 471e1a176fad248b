// Any two captures side by side: how individuals are joined and split, and how disputes are looked at.
import { forgetAhead } from './ahead.js';
import { get } from './api.js';
import { command, verdictCommand } from './command.js';
import { comparer } from './compare.js';
import { button, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { ANSWERS, factsList } from './parts.js';
import { go, refreshHello } from './place.js';
import { sayWeighed, weighed } from './weigh.js';
import { t } from './words.js';

const photosOf = (capture) => capture.photos.filter((photo) => photo.usable).map((photo) => photo.photo);

// A dialog that finds captures by name, night or individual.
export function chooseCapture(title, chosen) {
  const input = el('input', { id: 'find-capture', autocomplete: 'off', maxlength: '80', placeholder: t('name, night or individual') });
  const list = el('ul.found', { 'aria-live': 'polite' });
  let asked = 0;
  const search = async () => {
    const mine = ++asked;
    const { captures, found } = await get(`/api/captures?find=${encodeURIComponent(input.value.trim())}`);
    if (mine !== asked) return;
    fill(list, captures.length ? captures.map((one) => el('li', {}, el('button', { type: 'button', onclick: () => { dialog.close(); chosen(one); } },
      el('img.thumb', { src: `/strip/${one.strip}`, alt: '', width: '20', height: '64', loading: 'lazy' }),
      el('span.name', {}, `${one.name}, ${one.night}`, el('span.mine', {}, one.individual ?? t('not settled')))))) : el('li', {}, t('No capture of that name with a photo that can be used.')),
    found > captures.length && el('li.why', {}, t('{found} more: write more of the name.', { found: found - captures.length })));
  };
  input.addEventListener('input', search);
  const dialog = el('dialog.find', { 'aria-labelledby': 'find-title' }, el('h2', { id: 'find-title' }, title),
    el('label', { for: 'find-capture' }, t('Find a capture')), input, list, button('Esc', t('Close'), () => dialog.close(), { class: 'quiet' }));
  dialog.addEventListener('close', () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
  input.focus();
  search();
}

// Without captures: any two are chosen.
function chooseBoth(root, [first]) {
  fill(root, el('h1', {}, t('Hold any two captures together')),
    el('div.actions', {}, button('Enter', first ? t('Choose the second') : t('Choose the first'), choose, { class: 'main', 'data-first': true })));
  function choose() { chooseCapture(first ? t('The second capture') : t('The first capture'), ({ capture }) => go(first ? `pair/${first}/${capture}` : `pair/${capture}`)); }
  useKeys([{ key: 'Enter', label: t('Choose a capture'), run: choose }]);
}

export async function show(root, [a, b]) {
  if (!b) return chooseBoth(root, [a]);
  const [capture, candidate] = await Promise.all([get(`/api/capture/${a}`), get(`/api/capture/${b}`)]);
  const table = comparer();
  const mine = photosOf(capture), theirs = photosOf(candidate);
  let own = 0, other = 0;
  const lay = () => mine.length && theirs.length && table.lay(mine[own % mine.length], theirs[other % theirs.length], [capture.name, candidate.name]);
  const told = el('p.told', { role: 'status' });
  const reason = el('input', { id: 'reason', maxlength: '1000', autocomplete: 'off' });
  const facts = el('div', {});
  async function verdict(answer) {
    try {
      const body = { capture: a, other: b, answer, reason: reason.value.trim() };
      const words = t('{name} and {name2}: {answers}', { name: capture.name, name2: candidate.name, answers: ANSWERS[answer] });
      const ready = answer === 'same' ? await weighed(body, words) : body;
      if (!ready) return;
      await sayWeighed('/api/verdict', ready, words);
      told.textContent = t('Saved: {answers}.', { answers: ANSWERS[answer] });
      forgetAhead();
      const seen = await Promise.all([get(`/api/capture/${a}`), get(`/api/capture/${b}`)]);
      // Split off, a capture belongs to nobody until somebody says who it is.
      fill(facts, seen.filter((one) => !one.settled && !one.disputed).map((one) => el('p', {}, el('a', { href: `#/capture/${one.capture}` }, t('{name} belongs to no individual now: settle it', { name: one.name })))),
        seen.map((one) => one.facts && [el('h2', {}, one.name), factsList(one.facts)]));
      await refreshHello();
    } catch (error) {
      told.textContent = error.message;
    }
  }
  const again = () => chooseCapture(t('Hold {name} against', { name: capture.name }), (found) => go(`pair/${a}/${found.capture}`));
  fill(root, table.node, el('div.side', {}, el('div.scrolls', {},
    el('p.place', {}, el('a', { href: `#/night/${capture.night}` }, t('Night')), ' · ', el('a', { href: '#/individuals' }, t('Individuals')), candidate.settled && [' · ', el('a', { href: `#/individual/${b}` }, candidate.settled)]),
    el('h1', {}, t('{name} and {name2}', { name: capture.name, name2: candidate.name })),
    mine.length && theirs.length ? null : el('p.problem', {}, t('One of them has no usable photo.')), facts, command(verdictCommand(capture.name, 'same', candidate.name), verdictCommand(capture.name, 'different', candidate.name))),
  el('div.dock', {}, el('div.moves', {}, button('h', t('Hold against another…'), again, { class: 'small' })), told,
    el('label.reason', { for: 'reason' }, el('span', {}, el('kbd', {}, 'R'), t(' Reason')), reason),
    el('div.verdicts', {}, button('S', t('＝ Same'), () => verdict('same'), { class: 'same' }), button('D', t('≠ Different'), () => verdict('different'), { class: 'different' }),
      button('C', t('? Cannot tell'), () => verdict('cannot_tell'), { class: 'cannot' })))));
  useKeys([
    { key: 's', label: t('Same'), run: () => verdict('same') }, { key: 'd', label: t('Different'), run: () => verdict('different') },
    { key: 'c', label: t('Cannot tell'), run: () => verdict('cannot_tell') }, { key: 'r', label: t('Write a reason'), run: () => reason.focus() },
    { key: 'h', label: t('Hold the first against another'), run: again },
    { key: '[', label: t('Another photo of the first'), run: () => { own += 1; lay(); } },
    { key: ']', label: t('Another photo of the second'), run: () => { other += 1; lay(); } },
    ...table.keys,
  ]);
  lay();
  return () => table.close();
}
