// The words that stand in index.html, for where no script runs yet, in the language of the program.
import { t } from './words.js';

const TEXTS = { '.skip': t('To the page'), 'nav a[href="#/evening"]': t('New night'), 'nav a[href="#/night"]': t('Night'),
  'nav a[href="#/second"]': t('Second reading'), 'nav a[href="#/disputes"]': t('Disputes'), 'nav a[href="#/individuals"]': t('Individuals'),
  'nav a[href="#/population"]': t('Population'), 'nav a[href="#/calendar"]': t('Calendar'), 'nav a[href="#/map"]': t('Map'),
  'nav a[href="#/ledger"]': t('Ledger'), 'nav a[href="#/settings"]': t('Settings'), 'nav a[href="#/start"]': t('Catalogues'),
  '#keys .word': t('Keys'), '.waiting': t('Opening the catalogue…') };
const LABELS = { nav: t('Pages'), '#cautions': t('Cautions') };

export function sayFrame() {
  document.documentElement.lang = t('en');
  // The first node of each: a count may stand behind the words.
  for (const [where, words] of Object.entries(TEXTS)) document.querySelector(where).firstChild.data = words;
  for (const [where, words] of Object.entries(LABELS)) document.querySelector(where).setAttribute('aria-label', words);
}
