// Choices kept in the address, so that a filtered page can be kept, sent and gone back to.

// 'sex=female&season=2031' or nothing -> { sex: 'female', season: '2031' }
export const choicesIn = (part = '') => Object.fromEntries(new URLSearchParams(decodeURIComponent(part)));
// The other way round; what is empty is left out.
export const asQuery = (choices) => String(new URLSearchParams(Object.entries(choices).filter(([, value]) => value !== '' && value !== undefined && value !== null)));
export const asPart = (choices) => encodeURIComponent(asQuery(choices));

export const placeWords = (place) => [place.site, place.pond].filter(Boolean).join(', ');
