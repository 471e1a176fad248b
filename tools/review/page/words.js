// The page's words in the language of the program: t('At the tray'), t('{n} more.', { n }), and where a number
// decides, counted(3, '{n} photo', '{n} photos'). The English text is the key, always a plain string, so that
// tools/messages.sh finds it for translators; spoken.js has what differs, made by tools/review/page_words.cpp.
import spoken from './spoken.js';

const put = (text, args) => text.replace(/\{(\w+)\}/g, (whole, name) => (name in args ? args[name] : whole));

export const t = (english, args = {}) => put(spoken.one[english] ?? english, args);

// Languages have up to six forms; which of them a number takes is told for 0 to 199, and goes by its last two digits
// beyond.
export function counted(n, one, many, args = {}) {
  const said = spoken.many[one];
  const form = said ? said.forms[said.which[n < 200 ? n : 100 + (n % 100)]] : n === 1 ? one : many;
  return put(form, { n, ...args });
}

// What a sheet holds as a word of its own; anything else is somebody's and stays.
const OF_SHEETS = { female: t('female'), male: t('male'), unknown: t('unknown'), adult: t('adult'), subadult: t('subadult'),
  juvenile: t('juvenile'), metamorph: t('metamorph'), yes: t('yes'), no: t('no') };
export const sheetWord = (value) => OF_SHEETS[value] ?? value;
