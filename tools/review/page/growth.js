// Growth: everyone who was measured on more than one night.
import { get } from './api.js';
import { counted, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { plot } from './plots.js';

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
  fill(root, el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, 'Growth'), el('span.places', {}, `${counted(individuals.length, 'individual')} measured more than once, ${once} once`)),
    steps.length ? null : el('p', {}, 'Nobody has been measured on two nights yet.'),
    steps.length ? [el('h2', {}, 'Lengths of each'), el('p.why', {}, 'Circles are females, triangles males, plus signs animals of unknown sex.'), lives] : null,
    long.length ? [el('h2', {}, 'Growth by length'), el('p.why', {}, 'From measures at least 90 days apart. Snout–vent length is read to about 2 mm (common practice): a small shrinking is no growth backwards.'), rates] : null,
    steps.length ? el('details', {}, el('summary', {}, `As a table, ${counted(steps.length, 'step')}`), el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': 'Growth from measure to measure' }, el('table.broad', {},
      el('thead', {}, el('tr', {}, ['Individual', 'Sex', 'From', 'To', 'Days', 'SVL, mm', 'Grown, mm', 'mm in a year'].map((word) => el('th', { scope: 'col' }, word)))),
      el('tbody', {}, steps.map((step) => el('tr', {}, el('td', {}, el('a', { href: `#/individual/${step.id}` }, step.name)), [step.sex, step.earlier.night, step.later.night, step.days,
        `${step.earlier.svl_mm} to ${step.later.svl_mm}`, step.grown.toFixed(1), step.rate.toFixed(1)].map((value) => el('td', {}, String(value))))))))) : null);
  useKeys([]);
  const points = individuals.flatMap((one) => one.measures.map((measure) => ({ id: one.id, night: day(measure.night), svl: measure.svl_mm, sex: one.sex })));
  if (steps.length)
    plot(lives, (Plot, width) => ({ width, height: 320, marginLeft: 50, y: { label: 'SVL, mm', nice: true, grid: true }, x: { type: 'utc', label: null }, symbol: SHAPES,
      marks: [Plot.line(points, { x: 'night', y: 'svl', z: 'id', strokeOpacity: 0.5 }), Plot.dot(points, { x: 'night', y: 'svl', symbol: 'sex', r: 3 })] }),
    `Snout–vent lengths of ${individuals.length} individuals over time`);
  if (long.length)
    plot(rates, (Plot, width) => ({ width, height: 300, marginLeft: 50, marginBottom: 45, x: { label: 'SVL at the first measure, mm', labelOffset: 40, nice: true, grid: true }, y: { label: 'mm in a year', nice: true, grid: true }, symbol: SHAPES,
      marks: [Plot.ruleY([0]), Plot.dot(long, { x: (step) => step.earlier.svl_mm, y: 'rate', symbol: 'sex', r: 4 })] }),
    `Growth in millimetres a year against length, of ${long.length} steps`);
}
