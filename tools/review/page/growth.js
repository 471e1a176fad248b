// Growth: everyone who was measured on more than one night.
import { get } from './api.js';
import { counted, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { plot } from './plots.js';
import { sheetWord, t } from './words.js';

const DAY_MS = 86_400_000;
// Told by shape, not by colour.
const SHAPES = { domain: ['female', 'male', 'unknown'], range: ['circle', 'triangle', 'plus'] };
const day = (night) => new Date(`${night}T00:00:00Z`);

export async function show(root) {
  const { individuals, measured_once: once } = await get('/api/growth');
  const steps = individuals.flatMap((one) => one.measures.slice(1).map((later, i) => {
    const earlier = one.measures[i], days = (day(later.night) - day(earlier.night)) / DAY_MS;
    return { id: one.id, name: one.name, sex: one.sex, earlier, later, days, grown: later.svl_mm - earlier.svl_mm, rate: ((later.svl_mm - earlier.svl_mm) * 365) / days };
  })).filter((step) => step.days > 0);
  const lives = el('div.plot'), rates = el('div.plot');
  const long = steps.filter((step) => step.days >= 90); // over less, a year's rate is measuring error made large
  fill(root, el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, t('Growth')), el('span.places', {}, t('{individuals} measured more than once, {once} once', { individuals: counted(individuals.length, '{n} individual', '{n} individuals'), once }))),
    steps.length ? null : el('p', {}, t('Nobody has been measured on two nights yet.')),
    steps.length ? [el('h2', {}, t('Lengths of each')), el('p.why', {}, t('Circles are females, triangles males, plus signs animals of unknown sex.')), lives] : null,
    long.length ? [el('h2', {}, t('Growth by length')), el('p.why', {}, t('From measures at least 90 days apart. Snout–vent length is read to about 2 mm (common practice): a small shrinking is no growth backwards.')), rates] : null,
    steps.length ? el('details', {}, el('summary', {}, t('As a table, {steps}', { steps: counted(steps.length, '{n} step', '{n} steps') })), el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': t('Growth from measure to measure') }, el('table.broad', {},
      el('thead', {}, el('tr', {}, [t('Individual'), t('Sex'), t('From'), t('To'), t('Days'), t('SVL, mm'), t('Grown, mm'), t('mm in a year')].map((word) => el('th', { scope: 'col' }, word)))),
      el('tbody', {}, steps.map((step) => el('tr', {}, el('td', {}, el('a', { href: `#/individual/${step.id}` }, step.name)), [sheetWord(step.sex), step.earlier.night, step.later.night, step.days,
        t('{svl_mm} to {svl_mm2}', { svl_mm: step.earlier.svl_mm, svl_mm2: step.later.svl_mm }), step.grown.toFixed(1), step.rate.toFixed(1)].map((value) => el('td', {}, String(value))))))))) : null);
  useKeys([]);
  const points = individuals.flatMap((one) => one.measures.map((measure) => ({ id: one.id, night: day(measure.night), svl: measure.svl_mm, sex: one.sex })));
  if (steps.length)
    plot(lives, (Plot, width) => ({ width, height: 320, marginLeft: 50, y: { label: t('SVL, mm'), nice: true, grid: true }, x: { type: 'utc', label: null }, symbol: SHAPES,
      marks: [Plot.line(points, { x: 'night', y: 'svl', z: 'id', strokeOpacity: 0.5 }), Plot.dot(points, { x: 'night', y: 'svl', symbol: 'sex', r: 3 })] }),
    t('Snout–vent lengths of {individuals} individuals over time', { individuals: individuals.length }));
  if (long.length)
    plot(rates, (Plot, width) => ({ width, height: 300, marginLeft: 50, marginBottom: 45, x: { label: t('SVL at the first measure, mm'), labelOffset: 40, nice: true, grid: true }, y: { label: t('mm in a year'), nice: true, grid: true }, symbol: SHAPES,
      marks: [Plot.ruleY([0]), Plot.dot(long, { x: (step) => step.earlier.svl_mm, y: 'rate', symbol: 'sex', r: 4 })] }),
    t('Growth in millimetres a year against length, of {long} steps', { long: long.length }));
}
