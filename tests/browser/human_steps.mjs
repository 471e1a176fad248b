// Human steps of a piece of work, counted, and how long they take a person, by the keystroke-level model.
//
// S. K. Card, T. P. Moran, A. Newell (1980), "The keystroke-level model for user performance time with interactive
// systems", Communications of the ACM 23(7): 396-410, table 1 (from memory): a key of an average typist 0.28 s (K), a
// button of the mouse 0.28 s as well, pointing 1.1 s (P), a hand from keys to mouse or back 0.4 s (H), making up one's
// mind 1.35 s (M). The machine's own time is measured beside it. What it takes to look at an animal is not in it.
export const K = 0.28, P = 1.1, H = 0.4, M = 1.35;

export class Steps {
  constructor() {
    this.parts = [];
    this.hand = 'mouse';
  }
  // From here on steps and waiting are counted for this part.
  part(name) { this.parts.push({ name, steps: 0, human_s: 0, machine_s: 0 }); }
  get now() { return this.parts.at(-1); }
  #count(hand, seconds) {
    this.now.steps += 1;
    this.now.human_s += seconds + (hand === this.hand ? 0 : H);
    this.hand = hand;
  }
  async click(locator) {
    this.#count('mouse', M + P + K);
    await this.machine(() => locator.click());
  }
  // A key by itself: `known` where no thought goes before it, as in a row of the same keys.
  async key(page, key, known = false) {
    this.#count('keys', (known ? 0 : M) + K);
    await this.machine(() => page.keyboard.press(key));
  }
  async type(page, text, known = false) {
    this.#count('keys', (known ? 0 : M) + text.length * K);
    await page.keyboard.type(text);
  }
  // The system's own window for files: opened by `button`, all chosen with Ctrl+A, taken with Enter.
  async choose(page, button, files) {
    const chooser = page.waitForEvent('filechooser');
    await this.click(button);
    this.#count('keys', M + 2 * K);
    this.#count('keys', K);
    await (await chooser).setFiles(files);
  }
  // What a person waits for.
  async machine(until) {
    const began = performance.now();
    const answer = await until();
    this.now.machine_s += (performance.now() - began) / 1000;
    return answer;
  }
  get whole() {
    const sum = (name) => this.parts.reduce((all, one) => all + one[name], 0);
    return { name: 'whole evening', steps: sum('steps'), human_s: sum('human_s'), machine_s: sum('machine_s') };
  }
  table() {
    const row = (one) => `| ${one.name} | ${one.steps} | ${one.human_s.toFixed(0)} | ${one.machine_s.toFixed(1)} |`;
    return ['| part | human steps | of a person, s | of the machine, s |', '|---|---:|---:|---:|', ...this.parts.map(row), row(this.whole)].join('\n');
  }
}
