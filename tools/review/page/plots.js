// Plots by Observable Plot, loaded only where one is shown.
import { fill } from './dom.js';
import { t } from './words.js';

let loading = null;
const script = (src) => new Promise((resolve, reject) => {
  const node = document.createElement('script');
  node.src = src;
  node.onload = resolve;
  node.onerror = () => reject(new Error(t('The plots could not be loaded.')));
  document.head.append(node);
});
const library = () => (loading ??= script('/d3.min.js').then(() => script('/plot.umd.min.js')).then(() => window.Plot));

// `make(Plot, width)` gives the plot's options; `words` say what it shows to who cannot see it.
export async function plot(node, make, words) {
  const Plot = await library();
  // Drawn to the width it gets, which is known once the page is shown.
  for (let i = 0; i < 200 && !node.isConnected; ++i) await new Promise((resolve) => setTimeout(resolve, 25));
  const drawn = Plot.plot(make(Plot, Math.max(280, Math.min(1100, (node.clientWidth || 664) - 24))));
  // The page allows no style written inside it: style.css has what these hold.
  for (const style of drawn.querySelectorAll('style')) style.remove();
  // One picture with words of its own, not a heap of named groups.
  for (const group of drawn.querySelectorAll('[aria-label]')) group.removeAttribute('aria-label');
  drawn.setAttribute('role', 'img');
  drawn.setAttribute('aria-label', words);
  fill(node, drawn);
}
