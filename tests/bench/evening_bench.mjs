// The first evening with a card of 40 photos of 12 MP, some of them HEIC: human steps, a person's time by the keystroke-
// level model, and how long the machine kept that person waiting. Usage: tools/bench.sh evening [--photos N] [--enlarge N]
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { firstEvening } from '../browser/first_evening.mjs';
import { launch, open, Served } from '../browser/harness.mjs';

const asked = { photos: 40, enlarge: 1 };
for (let i = 2; i < process.argv.length; i += 2) {
  const name = process.argv[i].replace(/^--/, ''), value = Number(process.argv[i + 1]);
  if (!(name in asked) || !Number.isInteger(value) || value < 1) {
    console.error(`evening_bench: '${process.argv.slice(i).join(' ')}' is not understood; use --photos N, or --enlarge N for photos drawn smaller`);
    process.exit(2);
  }
  asked[name] = value;
}
const { photos: count, enlarge } = asked;
const folder = join(process.env.EVET_BENCH_FOLDER, `evening-${count}-${enlarge}`);
mkdirSync(folder, { recursive: true });
const shown = JSON.parse(execFileSync(process.env.EVET_DRAW_EVENING, [folder, '--photos', String(count), '--enlarge', String(enlarge), '--threads', '2'], { encoding: 'utf8' }));
const shots = process.env.EVET_SCREENSHOTS;
if (shots && !existsSync(shots)) mkdirSync(shots, { recursive: true });

const alive = setInterval(() => {}, 1000); // the program's own handles do not keep this one running while it is ended
const browser = await launch();
const served = await Served.draw('none');
const page = await open(browser, served, 'KM');
const began = performance.now();
const done = await firstEvening(page, folder, { look: async (name, other = page) => {
  if (shots) await other.screenshot({ path: join(shots, `${name}.png`), fullPage: true });
} });
const whole_s = (performance.now() - began) / 1000;

// Captures as the camera's clock gathered them, against what was photographed.
const animals = new Map(shown.map(({ animal }) => [animal, shown.filter((one) => one.animal === animal)]));
const right = [...animals.values()].filter((photos) => done.captures.some((one) => one.photos.length === photos.length && photos.every(({ photo }) => one.photos.includes(photo)))).length;
const files = readdirSync(folder).filter((name) => /^IMG/.test(name));
const megabytes = files.reduce((sum, name) => sum + statSync(join(folder, name)).size, 0) / 2 ** 20;
const usable = done.sheet.photos.filter((one) => one.usable && !one.left_out).length;
console.log(`${count} photos of 12 MP (${files.filter((name) => name.endsWith('.HEIC')).length} HEIC), ${megabytes.toFixed(0)} MiB, of ${animals.size - 1} animals and an empty tray, rendered, world 233, middle difficulty${enlarge > 1 ? `, drawn ${enlarge} times smaller and enlarged` : ''}.`);
console.log(`By the camera's clock ${right} of ${animals.size} were gathered rightly. ${usable} of ${count - 1} photos of animals can be matched; the last was judged ${done.judged_s.toFixed(0)} s after the last had come.`);
console.log(`${done.night.queue.length} captures were to be settled; the program was sure of ${done.night.glance.of_these_sure}, a person decided ${done.looks}.\n`);
console.log(done.steps.table());
console.log(`\nFrom the first step to the printed page ${whole_s.toFixed(0)} s went by with steps that take no time. A person's seconds are the keystroke-level model's (Card, Moran & Newell 1980): keys, pointing, and making up one's mind, without looking at animals; typing at 0.28 s a key.`);
await browser.close();
await served.end();
clearInterval(alive);
process.exit(0);
