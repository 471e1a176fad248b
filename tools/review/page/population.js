// The population: who was caught when, how discovery levels off, and what that says of numbers.
import { get } from './api.js';
import { counted, el, fill } from './dom.js';
import { useKeys } from './keys.js';
import { go } from './place.js';
import { plot } from './plots.js';
import { t } from './words.js';

const shown = (value) => (value === null || value === undefined ? t('not known') : value === 'inf' ? t('no bound') : typeof value === 'number' ? value.toLocaleString('en', { maximumSignificantDigits: 4 }) : String(value));
const placeWords = (place) => [place.site, place.pond].filter(Boolean).join(', ');

// Names on a plot are cut where they are long; the table below has them whole.
const cut = (name) => (name.length > 18 ? `${name.slice(0, 17)}…` : name);

function grid(population) {
  const cells = population.rows.flatMap((row) => row.nights.map((k) => ({ night: population.nights[k], name: row.name })));
  return (Plot, width) => ({ width: Math.min(width, Math.max(320, 160 + 54 * population.nights.length)), marginLeft: 145, marginRight: 10, marginBottom: 70, height: 100 + population.rows.length * 17,
    x: { domain: population.nights, tickRotate: -40, label: null }, y: { domain: population.rows.map((row) => row.name), tickFormat: cut, label: null },
    marks: [Plot.cell(cells, { x: 'night', y: 'name', fill: 'currentColor', inset: 1 })] });
}

function discovery(population) {
  const data = population.discovery;
  return (Plot, width) => ({ width, height: 260, marginLeft: 50, marginBottom: 45, x: { label: t('catches so far'), labelOffset: 40 }, y: { label: t('individuals so far'), grid: true },
    marks: [Plot.line(data, { x: 'catches', y: 'individuals' }), Plot.dot(data, { x: 'catches', y: 'individuals', fill: 'currentColor', r: 4 }), Plot.ruleY([0])] });
}

function table(head, rows) {
  return el('div.scroll', { tabindex: '0', role: 'region', 'aria-label': head.join(', ') }, el(head.length > 4 ? 'table.broad' : 'table', {}, el('thead', {}, el('tr', {}, head.map((word) => el('th', { scope: 'col' }, word)))),
    el('tbody', {}, rows.map((row) => el('tr', {}, row.map((value) => el('td', {}, value)))))));
}

const limits = (interval) => (interval ? t('{lower} to {upper} ({level}\u00a0%)', { lower: shown(interval.lower), upper: shown(interval.upper), level: Math.round(interval.level * 100) }) : t('none'));
const isNumber = (estimate) => ['N', 'N ever'].includes(estimate.of?.quantity);
// The number that the sentence above tells too: of the whole study, else of the last occasion that has one.
const toQuote = (answer) => {
  const told = answer.filter((one) => isNumber(one) && Number.isFinite(one.value) && !Object.keys(one.of.groups ?? {}).length);
  return told.find((one) => one.of.index === null) ?? told.at(-1);
};
const keyOf = (row, estimate) => `${row.model}: ${row.description}: ${estimate.parameter}`;
const bar = (name, { value, intervals }, doubt) => ({ name, value, lower: intervals?.[0]?.lower, upper: intervals?.[0]?.upper, doubt });
const isBounded = (one) => [one.value, one.lower, one.upper].every((x) => typeof x === 'number');

// Numbers of animals with their intervals; what allows for doubt about identities is hollow and dashed.
function drawNumbers(node, bars) {
  const certain = bars.filter((one) => !one.doubt), doubt = bars.filter((one) => one.doubt);
  // Below its certain figure the second needs no name again; that is not there where it has no bound.
  const label = (name, i) => (bars[i].doubt && name === t('{name}, in doubt', { name: bars[i - 1]?.name }) ? t('in doubt') : name);
  return plot(node, (Plot, width) => ({ width, marginLeft: 190, height: 75 + 26 * bars.length, marginBottom: 45, marginRight: 40,
    x: { label: t('animals'), labelOffset: 40, zero: true, grid: true },
    y: { label: null, domain: bars.map((one) => one.name), tickFormat: label },
    marks: [Plot.ruleY(certain, { y: 'name', x1: 'lower', x2: 'upper', strokeWidth: 2 }), Plot.ruleY(doubt, { y: 'name', x1: 'lower', x2: 'upper', strokeWidth: 2, strokeDasharray: '5 4' }),
      Plot.dot(certain, { y: 'name', x: 'value', fill: 'currentColor', r: 5 }), Plot.dot(doubt, { y: 'name', x: 'value', stroke: 'currentColor', fill: 'var(--panel)', strokeWidth: 2, r: 5 })] }),
  bars.map((one) => t('{name}: {value}, {lower} to {upper}', { name: one.name, value: shown(one.value), lower: shown(one.lower), upper: shown(one.upper) })).join('; '));
}

async function drawEstimates(node, query, still) {
  let report;
  try {
    report = await get(`/api/estimates${query}`);
  } catch (error) {
    return fill(node, el('p', {}, t('No estimate: {message}', { message: error.message })));
  }
  // Several fits of one model are told apart by a number, in the plot as in the table.
  const fits = new Map();
  for (const row of report.models) {
    const same = report.models.filter((other) => other.model === row.model);
    fits.set(row, same.length > 1 ? `${row.model} (${same.indexOf(row) + 1})` : row.model);
  }
  const answer = toQuote(report.answer);
  const quoted = answer && { model: '', description: '', estimates: [answer] };
  if (quoted) fits.set(quoted, t('to quote'));
  const all = [...fits.keys()].sort((one, other) => (other === quoted) - (one === quoted))
    .flatMap((row) => row.estimates.slice(0, 1).map((estimate) => ({ row, estimate })));
  const numbers = all.filter(({ estimate }) => isNumber(estimate)); // one axis holds numbers of animals alone: survival and growth stand in the table
  const inDoubt = new Map(numbers.map(({ row, estimate }) => [keyOf(row, estimate), el('span', {}, '…')]));
  const ofFits = all.flatMap(({ row, estimate }) => [...new Set([...(row.warnings ?? []), ...(estimate.warnings ?? [])])].map((words) => `${fits.get(row)}: ${words}`));
  const drawn = el('div.plot'), about = el('p.why', { role: 'status' }, t('Estimating with the doubt about identities…'));
  const certain = numbers.map(({ row, estimate }) => bar(fits.get(row), estimate)).filter(isBounded);
  const quote = el('strong', {}, report.plain ?? '');
  fill(node, report.plain && el('p', {}, quote), report.why && el('p.why', {}, report.why), certain.length ? drawn : null,
    table([t('Model'), t('Of what'), t('Identities as certain'), t('Standard error'), t('Interval'), t('Identities in doubt'), t('Source')], all.map(({ row, estimate }) => [row === quoted ? el('strong', {}, t('To quote')) : `${fits.get(row)}: ${row.description}`, estimate.parameter,
      shown(estimate.value), shown(estimate.standard_error), limits(estimate.intervals?.[0]), inDoubt.get(keyOf(row, estimate)) ?? '', estimate.source ?? ''])),
    about,
    report.warnings?.length ? el('ul.cautious', { 'aria-label': t('Cautions about these figures') }, report.warnings.map((one) => el('li', {}, one))) : null,
    ofFits.length ? el('details', {}, el('summary', {}, t('Cautions about single models, {offits}', { offits: ofFits.length })), el('ul', {}, ofFits.map((one) => el('li', {}, one)))) : null,
    el('details', {}, el('summary', {}, t('What is assumed')), el('ul', {}, [...new Set([...(report.assumptions ?? []), ...all.flatMap(({ estimate }) => estimate.assumptions ?? [])])].map((one) => el('li', {}, one)))));
  if (certain.length) await drawNumbers(drawn, certain);

  const doubt = await get(`/api/estimates/doubt${query}`).catch((error) => ({ rows: [], why: error.message }));
  if (!still()) return;
  for (const cell of inDoubt.values()) cell.textContent = '';
  const found = new Map(doubt.rows.map((row) => [keyOf(row, row.certain), row.in_doubt]));
  for (const [key, estimate] of found) {
    const cell = inDoubt.get(key);
    if (cell) cell.textContent = estimate.undefined || `${shown(estimate.value)}, ${limits(estimate.intervals?.[0])}`;
  }
  if (doubt.plain && report.stopped_before) quote.textContent = t('{plain} (Identities of {stopped_before} are drawn.)', { plain: doubt.plain, stopped_before: report.stopped_before });
  about.textContent = `${doubt.differ ? `${doubt.differ} ` : ''}${doubt.why}${doubt.rows.length ? '' : t(' So there is no second figure.')}`;
  const bars = numbers.flatMap(({ row, estimate }) => [bar(fits.get(row), estimate), ...(found.has(keyOf(row, estimate)) ? [bar(t('{name}, in doubt', { name: fits.get(row) }), found.get(keyOf(row, estimate)), true)] : [])]).filter(isBounded);
  if (found.size && bars.length) await drawNumbers(drawn, bars);
}

export async function show(root, [where = ''], still) {
  const [site = '', pond = ''] = decodeURIComponent(where).split('|');
  const query = `?site=${encodeURIComponent(site)}&pond=${encodeURIComponent(pond)}`;
  const population = await get(`/api/population${query}`);
  const heading = el('div.heading', {}, el('h1', { tabindex: '-1', 'data-first': true }, t('Population')));
  if (population.too_thin) {
    fill(root, heading, el('p', {}, population.too_thin));
    return null;
  }
  const chooser = el('select', { 'aria-label': t('Place'), onchange: () => go(`population/${encodeURIComponent(chooser.value)}`) },
    el('option', { value: '' }, t('All places')), population.places.map((place) => el('option', { value: `${place.site}|${place.pond}`, selected: place.site === site && place.pond === pond }, placeWords(place))));
  heading.append(chooser, el('a.small', { href: '#/plan' }, t('Plan a survey')));
  const gridNode = el('div.plot'), curveNode = el('div.plot'), estimateNode = el('div', {}, el('p.waiting', {}, t('Estimating…')));
  fill(root, heading,
    el('p', {}, t('{individuals} on {nights}: {used} of {captures} count.', { individuals: counted(population.animals, '{n} individual', '{n} individuals'), nights: counted(population.nights.length, '{n} night', '{n} nights'), used: population.used, captures: counted(population.captures, '{n} capture', '{n} captures') }),
      population.unsettled > population.unmatchable ? t(' {unsettled} not settled yet are left out.{what}', { unsettled: population.unsettled - population.unmatchable, what: population.open_nights?.length ? t(' Figures stop before {open_nights}, which is not settled.', { open_nights: population.open_nights[0] }) : '' }) : '',
      population.unmatchable ? t(' {unmatchable} without a photo that can be matched are left out.', { unmatchable: population.unmatchable }) : '', population.by_program ? t(' {by_program} rest on the program alone.', { by_program: population.by_program }) : '', population.disputed ? t(' {disputed} in dispute.', { disputed: population.disputed }) : ''),
    el('h2', {}, t('How many there are')), estimateNode,
    el('h2', {}, t('Discovery')), curveNode,
    el('details', {}, el('summary', {}, t('As a table')), table([t('Night'), t('Catches so far'), t('Individuals so far')], population.discovery.map((one) => [one.night, String(one.catches), String(one.individuals)]))),
    el('h2', {}, t('Capture histories')), population.rows.length < population.animals ? el('p.why', {}, t('The first {rows} are drawn.', { rows: population.rows.length })) : null, gridNode,
    el('details', {}, el('summary', {}, t('As a table')), table([t('Individual'), t('Nights')], population.rows.map((row) => [row.name, row.nights.map((k) => population.nights[k]).join(', ')]))));
  useKeys([]);
  plot(curveNode, discovery(population), t('After {catches} catches {individuals} individuals are known', { catches: population.discovery.at(-1).catches, individuals: population.discovery.at(-1).individuals }));
  plot(gridNode, grid(population), t('Histories of {rows} individuals over {nights} nights; the table below has them all', { rows: population.rows.length, nights: population.nights.length }));
  drawEstimates(estimateNode, query, still).catch((error) => fill(estimateNode, el('p', { role: 'alert' }, error.message)));
  return null;
}
