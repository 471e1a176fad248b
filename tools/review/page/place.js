// Where the page is. Every page asks here; the frame round them (app.js), which knows them all, answers.
import { get, session } from './api.js';

let frame = null;
export const framedBy = (answers) => { frame = answers; };

export const go = (path) => { location.hash = `#/${path}`; };
export const reload = () => frame.draw();

export async function refreshHello() {
  session.hello = await get('/api/hello');
  frame.drawFrame();
}
