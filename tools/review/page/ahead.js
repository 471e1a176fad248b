// The next capture's answer and strips, asked for while this one is looked at.
import { get, picture, stripPath } from './api.js';

const ahead = new Map(); // captures asked for before they are wanted

export const load = (id) => {
  const known = ahead.get(id);
  ahead.delete(id);
  return known ?? get(`/api/capture/${id}`);
};
export const forgetAhead = () => ahead.clear();

export function lookAhead(id) {
  if (!id || ahead.has(id)) return;
  ahead.set(id, get(`/api/capture/${id}`).then((next) => {
    const [first] = next.candidates;
    const photo = first?.query_photo || next.photos[0]?.photo;
    if (photo && next.photos[0]?.usable) picture(stripPath(photo)).catch(() => {});
    if (first && photo) picture(stripPath(first.photo, photo)).catch(() => {});
    return next;
  }).catch(() => { ahead.delete(id); return get(`/api/capture/${id}`); }));
}
