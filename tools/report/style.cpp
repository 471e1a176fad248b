#include "tools/report/sections.h"

namespace evet::report {

// One column of calm paper; colour says nothing that a word beside it does not say too.
std::string style_sheet() {
  return R"css(
:root {
  --paper: #f7f5ef; --sheet: #fffefb; --ink: #1f2b28; --soft: #56645e; --line: #dcd7ca; --faint: #ece8dd;
  --again: #17635a; --new: #9a4a0c; --look: #66457f; --unusable: #62625c; --warn: #fbf0d8; --warn-edge: #c48a1a;
  color-scheme: light dark;
}
@media screen and (prefers-color-scheme: dark) {
  :root {
    --paper: #121816; --sheet: #1a211f; --ink: #e4eae5; --soft: #a3b0aa; --line: #37423d; --faint: #26302c;
    --again: #77c8b5; --new: #eda466; --look: #c7abe0; --unusable: #b4b4ab; --warn: #2f2914; --warn-edge: #c99a35;
  }
}
*, *::before, *::after { box-sizing: border-box; }
html { font: 16px/1.5 system-ui, "Segoe UI", Roboto, "Noto Sans", "DejaVu Sans", sans-serif; -webkit-text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink); overflow-wrap: break-word; }
code, small, .how td { overflow-wrap: anywhere; }
figcaption h3 { color: var(--ink); }
header, main, footer { max-width: 68rem; margin: 0 auto; padding: 0 1.5rem; }
h1, h2, h3, .tiles b { font-family: ui-serif, Georgia, "Noto Serif", "DejaVu Serif", serif; font-weight: 600; line-height: 1.2; }
h1 { font-size: 2.6rem; margin: 0; letter-spacing: -0.01em; }
h2 { font-size: 1.5rem; margin: 0 0 0.4rem; }
h3 { font-size: 1.15rem; margin: 0 0 0.5rem; }
h4 { font-size: 0.95rem; margin: 0 0 0.2rem; }
p { margin: 0 0 0.7rem; }
small, figcaption, .from, .lead, dt, .source { color: var(--soft); }
small, figcaption { font-size: 0.8rem; line-height: 1.35; }
code { font-family: ui-monospace, "Cascadia Mono", "DejaVu Sans Mono", monospace; font-size: 0.82em; }
a { color: inherit; }
:focus-visible { outline: 3px solid var(--again); outline-offset: 2px; }
section { margin: 0 0 3rem; }
section > h2 .n { color: var(--soft); font-weight: 400; }
.lead { max-width: 46rem; }

header { padding-top: 2.5rem; padding-bottom: 1.5rem; }
.over { text-transform: uppercase; letter-spacing: 0.14em; font-size: 0.78rem; color: var(--soft); margin: 0 0 0.4rem; }
.when { font-size: 1.25rem; color: var(--soft); margin: 0.2rem 0 1.4rem; }
.facts { display: grid; grid-template-columns: repeat(auto-fit, minmax(13rem, 1fr)); gap: 0.8rem 2rem; margin: 0; padding: 1rem 0; border-top: 2px solid var(--ink); border-bottom: 1px solid var(--line); }
dt { font-size: 0.8rem; }
dd { margin: 0; }
.facts .long { grid-column: 1 / -1; }

.tiles { list-style: none; display: grid; grid-template-columns: repeat(4, 1fr); gap: 1rem; margin: 1rem 0; padding: 0; }
.tiles li > * { display: block; height: 100%; padding: 1rem 1.1rem; background: var(--sheet); border: 1px solid var(--line); border-top: 4px solid var(--tone); border-radius: 4px; text-decoration: none; }
.tiles a:hover { border-color: var(--tone); }
.tiles b { display: block; font-size: 2.4rem; color: var(--tone); line-height: 1; }
.tiles span { display: block; font-weight: 600; margin-top: 0.35rem; }
.tiles small { display: block; }
.none b, .none span { color: var(--soft); }
.again { --tone: var(--again); } .new { --tone: var(--new); } .look { --tone: var(--look); } .unusable { --tone: var(--unusable); }

.cards { display: grid; grid-template-columns: repeat(auto-fill, minmax(29rem, 1fr)); gap: 1.2rem; }
.cards.many { grid-template-columns: repeat(auto-fill, minmax(15rem, 1fr)); }
.many .card { gap: 1rem; padding: 0.9rem; }
.card { background: var(--sheet); border: 1px solid var(--line); border-radius: 4px; padding: 1.1rem; display: flex; gap: 1.3rem; break-inside: avoid; margin: 0; }
.card.wide { display: block; margin-bottom: 1.2rem; }
.words { flex: 1; min-width: 0; }
.from { font: 400 0.85rem/1.3 system-ui, "Noto Sans", "DejaVu Sans", sans-serif; display: block; margin-top: 0.1rem; }
.card dl { margin: 0 0 0.7rem; display: grid; grid-template-columns: auto 1fr; gap: 0.15rem 0.9rem; font-size: 0.88rem; }
.card dl > div { display: contents; }
.card dt { font-size: inherit; }
.decided { font-size: 0.88rem; margin: 0 0 0.4rem; }
.caution { background: var(--warn); border-left: 4px solid var(--warn-edge); padding: 0.45rem 0.7rem; font-size: 0.9rem; margin: 0.5rem 0 0; }
.p { font-size: 0.92rem; line-height: 1.35; margin: 0 0 0.7rem; }
.p .bar { display: block; height: 6px; border-radius: 3px; background: var(--faint); overflow: hidden; margin-bottom: 0.3rem; }
.p .bar i { display: block; height: 100%; background: var(--tone); }

figure { margin: 0; }
img.strip { display: block; width: 100%; height: auto; border-radius: 3px; }
.card { --strip: 5.7rem; }
.card.wide { --strip: 6.6rem; }
/* drawing units of a pair: 160 + 72 + 160 */
.pair { flex: none; width: calc(var(--strip) * 2.45); }
.pair .table { position: relative; display: grid; grid-template-columns: 160fr 160fr; column-gap: 18.3673%; }
.pair .ties { position: absolute; inset: 0; width: 100%; height: 100%; }
.pair figcaption { display: grid; grid-template-columns: 59.18% 1fr; margin-top: 0.5rem; }
figcaption small { font-size: 0.7rem; }
.pair figcaption b, .single figcaption b { color: var(--ink); }
.ties line { stroke: var(--soft); stroke-width: 1.4; }
.ties .halo { fill: none; stroke: #fff; stroke-width: 6; }
.ties .ring { fill: none; stroke: #0d3d66; stroke-width: 2.8; }
.ties text { font: 600 19px system-ui, "DejaVu Sans", sans-serif; fill: #0d3d66; stroke: #fff; stroke-width: 5px; paint-order: stroke; text-anchor: middle; }
.single { flex: none; width: var(--strip); }
.line-up .candidates li { padding-left: 1.2rem; border-left: 1px solid var(--line); }
.single figcaption { margin-top: 0.4rem; }
.no-picture { aspect-ratio: 160 / 512; display: grid; place-items: center; text-align: center; border: 1px dashed var(--line); border-radius: 3px; color: var(--soft); font-size: 0.8rem; padding: 0.4rem; }

.line-up { display: flex; gap: 1.6rem; align-items: flex-start; flex-wrap: wrap; }
.candidates { list-style: none; display: flex; flex-wrap: wrap; gap: 1.1rem; margin: 0; padding: 0; }
.line-up .words { flex: 1 1 14rem; }

.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; margin: 0.6rem 0 1rem; font-size: 0.92rem; }
caption { text-align: left; color: var(--soft); font-size: 0.85rem; padding-bottom: 0.3rem; }
th, td { text-align: left; vertical-align: top; padding: 0.45rem 0.9rem 0.45rem 0; border-bottom: 1px solid var(--line); font-weight: 400; }
thead th { color: var(--soft); font-size: 0.85rem; border-bottom: 1px solid var(--ink); }
tbody th { font-weight: 600; }
td p { margin: 0; }
.num { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; padding-right: 1.6rem; }

.plot { width: 100%; max-width: 50rem; height: auto; font: 13px system-ui, "DejaVu Sans", sans-serif; fill: var(--soft); display: block; }
.plot .grid { stroke: var(--line); } .plot .diagonal { stroke: var(--soft); stroke-dasharray: 3 5; }
.plot .curve { fill: none; stroke: var(--again); stroke-width: 2.5; stroke-linejoin: round; }
.plot .dots { fill: var(--sheet); stroke: var(--again); stroke-width: 2.2; }
.plot .mid { text-anchor: middle; } .plot .end { text-anchor: end; } .plot .aside { font-style: italic; }
.plot .strong { fill: var(--again); font-weight: 600; }
.plot .reach { stroke: var(--again); stroke-width: 3; } .plot .value { fill: var(--sheet); stroke: var(--again); stroke-width: 3; }
.plot .arrow { fill: var(--again); } .intervals { margin: 0 0 1rem; }
summary { cursor: pointer; padding: 0.3rem 0; }
.estimate { margin-top: 2rem; }
.warnings { background: var(--warn); border-left: 4px solid var(--warn-edge); padding: 0.6rem 0.9rem; margin: 0 0 1rem; }
ul { margin: 0 0 0.7rem; padding-left: 1.2rem; }
.cautions { border: 1px solid var(--line); border-left: 4px solid var(--warn-edge); border-radius: 4px; padding: 1.1rem 1.3rem; background: var(--sheet); }
.cautions ul { margin: 0; }
footer { padding-bottom: 2.5rem; color: var(--soft); font-size: 0.85rem; }

@media (max-width: 62rem) { .cards { grid-template-columns: 1fr; } }
@media (max-width: 40rem) {
  header, main, footer { padding-left: 1rem; padding-right: 1rem; }
  h1 { font-size: 2rem; }
  .tiles { grid-template-columns: 1fr 1fr; gap: 0.7rem; }
  .cards, .cards.many { grid-template-columns: 1fr; }
  .card { padding: 0.9rem; }
  .cards:not(.many) .card { flex-direction: column; }
  .card, .card.wide { --strip: 6.2rem; }
}
.version { border: 1px solid var(--line); border-left: 4px solid var(--warn-edge); background: var(--sheet); padding: 0.5rem 0.8rem; font-size: 0.9rem; }
.blank { color: var(--soft); font-style: italic; }
.drawn { color: var(--soft); font-size: 0.7rem; line-height: 1.3; margin: 0.3rem 0 0; }
.captures { font-size: 0.85rem; }
.captures th, .captures td { padding-right: 0.7rem; }
.unbroken { white-space: nowrap; }
.conditions tbody th { width: 14rem; }
.signature .lines { display: grid; grid-template-columns: 1fr 1fr; gap: 2.2rem 2rem; margin-top: 2.4rem; }
.signature .line { display: block; min-height: 1.6rem; border-bottom: 1px solid var(--ink); }

/* Always light on paper, whatever the screen shows; strips no narrower than 30 mm. */
@media print {
  :root { color-scheme: light; }
  @page { size: A4; margin: 11mm 14mm 12mm; }
  html { font-size: 9.2pt; }
  body { background: #fff; }
  * { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
  header, main, footer { max-width: none; padding-left: 0; padding-right: 0; }
  header { padding-top: 0; }
  section { margin-bottom: 1.4rem; }
  section > .lead { margin-bottom: 0.3rem; }
  .cautions { padding: 0.5rem 0.9rem; font-size: 0.9rem; }
  .cautions p, .cautions li { margin-bottom: 0; }
  h2, h3, h4, .lead, caption { break-after: avoid; }
  p { orphans: 3; widows: 3; }
  .lead { break-inside: avoid; max-width: none; }
  .tiles { grid-template-columns: repeat(4, 1fr); }
  .cards { grid-template-columns: 1fr 1fr; gap: 0.5rem; }
  .cards.many { grid-template-columns: repeat(4, 1fr); gap: 0.6rem; }
  .card, .many .card, .card.wide { --strip: 30.5mm; padding: 0.7rem; gap: 0.9rem; }
  /* Two beside each other, two rows a page: the strips fill it, the words stand small below. */
  .cards:not(.many) .card { flex-direction: column; align-items: center; padding: 0.3rem; gap: 0.15rem; }
  .cards:not(.many) .words { width: 100%; font-size: 0.8rem; line-height: 1.2; }
  .cards:not(.many) .words h3, .cards:not(.many) .words .p { display: inline; font-size: 0.76rem; }
  .cards:not(.many) .words .from { font-size: 0.74rem; }
  .cards:not(.many) .words h3 { margin: 0 0.4em 0 0; }
  .cards:not(.many) .words .from { display: inline; }
  .cards:not(.many) .words .bar { display: none; }
  .cards:not(.many) .words p { margin: 0; }
  .cards:not(.many) .pair figcaption { margin-top: 0.1rem; font-size: 0.74rem; line-height: 1.2; }
  .cards:not(.many) .pair figcaption b { margin-right: 0.5em; }
  .cards:not(.many) .pair figcaption b + br { display: none; }
  .cards:not(.many) .drawn { margin: 0; font-size: 0.72rem; }
  .cards:not(.many) dl { grid-template-columns: auto 1fr auto auto; font-size: 0.76rem; white-space: nowrap; gap: 0 0.45rem; margin: 0; }
  .cards:not(.many) .decided { font-size: 0.76rem; }
  .many .card { flex-direction: column; padding: 0.25rem 0.4rem; gap: 0.2rem; align-items: center; }
  .many .words h3 { font-size: 0.9rem; margin: 0; }
  .many .words .from { display: inline; font-size: 0.74rem; }
  .many .words .bar { display: none; }
  .many .words { width: 100%; }
  .many .single figcaption { margin-top: 0; line-height: 1.1; }
  .many .p, .many .decided { font-size: 0.74rem; line-height: 1.2; margin-bottom: 0.1rem; }
  .line-up { gap: 0.9rem; }
  .line-up .words { flex: 1 1 100%; }
  .plot { max-width: 34rem; }
  .scroll { overflow: visible; }
  table { font-size: 0.85rem; }
  .captures { font-size: 0.75rem; }
  .captures th, .captures td { padding: 0.25rem 0.45rem 0.25rem 0; }
  thead { display: table-header-group; }
  tr, .whole, .cautions, .warnings, .discovery, .signature, .conditions { break-inside: avoid; }
  details { display: none; }
  a { text-decoration: none; }
}
)css";
}

}  // namespace evet::report
