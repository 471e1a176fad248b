// The ponds, drawn from the coordinates on the sheets: nothing is fetched, and no ground is shown.
import { get } from './api.js';
import { counted, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { asPart, placeWords } from './query.js';
import { t } from './words.js';

const SVG = 'http://www.w3.org/2000/svg';
const svg = (what, given, ...children) => {
  const node = document.createElementNS(SVG, what);
  for (const [name, value] of Object.entries(given)) node.setAttribute(name, value);
  node.append(...children);
  return node;
};
const KM_A_DEGREE = 111.32; // of latitude
const EDGE = 60;

// 1, 2 or 5 times a power of ten, not above `most`.
const roundBelow = (most) => {
  const power = 10 ** Math.floor(Math.log10(most));
  return power * [5, 2, 1].find((step) => step * power <= most);
};

// East and north in km from the middle: equirectangular, true to scale over a survey's few tens of km.
function laidOut(ponds, W, H) {
  const mean = (values) => values.reduce((sum, one) => sum + one, 0) / values.length;
  const lat0 = mean(ponds.map((one) => one.latitude)), lon0 = mean(ponds.map((one) => one.longitude));
  const km = ponds.map((one) => [(one.longitude - lon0) * KM_A_DEGREE * Math.cos((lat0 * Math.PI) / 180), (one.latitude - lat0) * KM_A_DEGREE]);
  const [x0, x1] = [Math.min(...km.map(([x]) => x)), Math.max(...km.map(([x]) => x))], [y0, y1] = [Math.min(...km.map(([, y]) => y)), Math.max(...km.map(([, y]) => y))];
  const scale = Math.min((W - 2 * EDGE) / Math.max(x1 - x0, 0.2), (H - 2 * EDGE) / Math.max(y1 - y0, 0.2)); // pixels a km
  const at = ([x, y]) => [W / 2 + (x - (x0 + x1) / 2) * scale, H / 2 - (y - (y0 + y1) / 2) * scale];
  return { at: km.map(at), scale };
}

function drawing(ponds, exact) {
  // On a phone the drawing is narrower, or its words would be too small to read.
  const [W, H] = innerWidth < 760 ? [400, 420] : [900, 520];
  const { at, scale } = laidOut(ponds, W, H);
  const picture = svg('svg', { viewBox: `0 0 ${W} ${H}`, role: 'img', class: 'ponds', 'aria-label': t('Map of {ponds}: {ponds2}', { ponds: counted(ponds.length, '{n} pond', '{n} ponds'), ponds2: ponds.map((one) => `${placeWords(one)}, ${one.words}`).join('; ') }) });
  const most = Math.max(1, ...ponds.map((one) => one.individuals));
  const names = [];
  ponds.forEach((one, i) => {
    const [x, y] = at[i];
    if (!exact) { // the cell that it lies in, not a point
      const half = 0.05 * KM_A_DEGREE * scale, wide = half * Math.cos((one.latitude * Math.PI) / 180);
      picture.append(svg('rect', { class: 'cell', x: x - wide, y: y - half, width: 2 * wide, height: 2 * half }));
    }
    picture.append(svg('circle', { class: 'pond', cx: x, cy: y, r: 5 + 14 * Math.sqrt(one.individuals / most) }));
    // A name that would lie on another goes a line down; on a phone names stand under their ponds.
    const narrow = W < 500;
    let down = narrow ? y + 38 : y + 5;
    while (names.some(([nx, ny]) => Math.abs(nx - x) < 220 && Math.abs(ny - down) < 17)) down += 17;
    names.push([x, down]);
    const left = x > W * 0.6;
    const text = narrow ? svg('text', { x: Math.min(Math.max(x, 125), W - 125), y: down, 'text-anchor': 'middle' })
      : svg('text', { x: x + (left ? -24 : 24), y: down, 'text-anchor': left ? 'end' : 'start' });
    text.textContent = `${placeWords(one)} (${one.individuals})`;
    picture.append(text);
  });
  const bar = roundBelow((W / 4) / scale), length = bar * scale;
  const words = svg('text', { x: EDGE / 2 + length / 2, y: H - 22, 'text-anchor': 'middle' });
  words.textContent = bar >= 1 ? t('{bar} km', { bar }) : `${Math.round(bar * 1000)} m`;
  const north = svg('text', { x: W - 30, y: 50, 'text-anchor': 'middle' });
  north.textContent = 'N';
  picture.append(svg('path', { class: 'bar', d: `M ${EDGE / 2} ${H - 16} v 8 h ${length} v -8` }), words, svg('path', { class: 'bar', d: `M ${W - 30} 34 v -22 m -5 7 l 5 -7 l 5 7` }), north);
  return picture;
}

export async function show(root) {
  const { ponds, exact } = await get('/api/map');
  const placed = ponds.filter((one) => one.latitude !== null), lost = ponds.filter((one) => one.latitude === null);
  const row = (one) => el('tr', {}, el('td', {}, el('a', { href: `#/individuals/${asPart({ site: one.site, pond: one.pond })}` }, placeWords(one))),
    el('td', {}, one.words ?? t('no coordinates on the sheets')), [one.nights, one.captures, one.individuals].map((value) => el('td', {}, String(value))));
  fill(root, el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, t('Ponds')), el('span.places', {}, counted(ponds.length, '{n} place', '{n} places'))),
    el('p.version', {}, exact ? t('Exact places, shown on this machine alone: do not photograph, print or pass on this page.') : t('Places are told coarsely, by the cell of 0.1° in which they lie: exact ones are shown on the machine that keeps the catalogue alone.')),
    placed.length ? el('div.plot', {}, drawing(placed, exact)) : el('p', {}, ponds.length ? t('No sheet gives coordinates.') : t('No night has been taken in yet.')),
    lost.length && placed.length ? el('p.why', {}, t('Without coordinates: {lost}. Write them on the sheet, or on the night\'s report page.', { lost: lost.map(placeWords).join('; ') })) : null,
    ponds.length ? el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': t('Ponds as a table') }, el('table', {}, el('caption', {}, t('A circle grows with the number of individuals')), el('thead', {}, el('tr', {}, [t('Place'), t('Where'), t('Nights'), t('Captures'), t('Individuals')].map((word) => el('th', { scope: 'col' }, word)))), el('tbody', {}, ponds.map(row)))) : null);
  useKeys([]);
}
