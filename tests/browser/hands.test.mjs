// The night by mouse, and by touch on a phone: no key is pressed.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { captureShown, launch, onTable, open, ranked, saved, Served, shown, until, verdictsOf } from './harness.mjs';

let browser;
before(async () => { browser = await launch(); });
after(() => browser.close());

for (const [name, options] of [['mouse', {}], ['touch', { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }]]) {
  test(`a night is settled by ${name} alone`, async () => {
    const served = await Served.draw();
    const page = await open(browser, served, 'TR', options);
    const press = (locator) => (name === 'mouse' ? locator.click() : locator.tap());
    await ranked(page);
    await press(page.locator('button', { hasText: 'Look at the first' }));
    await until(page, () => location.hash.startsWith('#/capture/'));
    for (let i = 0; i < 8; ++i) {
      await shown(page);
      const id = await captureShown(page);
      await onTable(page, id);
      const animal = served.truth.again[id];
      if (animal) await press(page.locator(`.candidates [data-individual="${animal}"]`));
      const answer = page.locator(`.verdicts .${animal ? 'same' : 'new'}`);
      const box = await answer.boundingBox();
      assert.ok(box.width >= 24 && box.height >= 24, 'large enough for a thumb');
      await press(answer);
      await until(page, (was) => !location.hash.includes(was), id);
    }
    await shown(page);
    await saved(page);
    await until(page, () => /5\s*caught again\s*3\s*new\s*0\s*to look at\s*1\s*unusable/.test(document.querySelector('.glance')?.innerText));
    assert.equal((await verdictsOf(served, page, 'TR')).length, 8);
    assert.deepEqual(page.problems, []);
    await page.context().close();
    await served.end();
  });
}

test('every control is at least 24 pixels wide and high, on a phone too', async () => {
  const served = await Served.draw('disputed');
  for (const options of [{}, { viewport: { width: 390, height: 844 } }]) {
    const page = await open(browser, served, 'LL', options);
    const small = [];
    for (const path of ['night', `capture/${served.truth.fresh[0]}`, `pair/${served.truth.captures[1][0]}/${served.truth.captures[2][0]}`, 'second', 'disputes', 'individuals',
      `individual/${served.truth.captures[3][0]}`, 'population', 'ledger']) {
      await page.evaluate((to) => { location.hash = `#/${to}`; }, path);
      await shown(page, path);
      // WCAG 2.2, 2.5.8: links within a sentence are excepted.
      small.push(...await page.evaluate(() => [...document.querySelectorAll('button, select, input, summary, a[href]')]
        .filter((node) => node.offsetParent && !(node.matches('a, input[type=checkbox]') && node.closest('p, td, li span, footer, label')) && !node.matches('.skip'))
        .map((node) => [node.getBoundingClientRect(), node.outerHTML.slice(0, 90)])
        .filter(([box]) => box.width < 24 || box.height < 24).map(([box, html]) => `${location.hash} ${Math.round(box.width)} x ${Math.round(box.height)}: ${html}`)));
    }
    assert.deepEqual(small, []);
    await page.context().close();
  }
  await served.end();
});
