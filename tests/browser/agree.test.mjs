// One module, one truth: the page, a worker-less Node process and the session say the same.
import assert from 'node:assert/strict';
import { GOLDEN, manyLinks } from './links.mjs';
import { coreInNode, lessons, wholeCore } from './lesson.mjs';

const lesson = await lessons();
const core = await coreInNode();

lesson.test('evaluate() in the page equals evaluate() in Node, to the last bit', { at: '?webgl=false' }, async (page) => {
  const links = [...GOLDEN.map(([given]) => given), ...manyLinks(50)];
  await wholeCore(page);
  const in_page = await page.evaluate((all) =>
    all.map((link) => globalThis.__lesson?.core.evaluate(link)), links);
  let flown = 0;
  for (const [i, link] of links.entries()) {
    const here = core.evaluate(link);
    assert.deepStrictEqual(in_page[i], here, link);
    if (here.rollout) flown += 1;
  }
  assert.ok(flown > links.length / 2, 'most of them fly');
  assert.equal(new Set(in_page.map((r) => r?.rollout?.cross_nm)).size > 40, true, 'and not all alike');
});

lesson.test('the picture in the page is the picture that the core draws in Node', { at: '?webgl=false' }, async (page) => {
  for (const link of manyLinks(4, 7)) {
    const in_page = await page.evaluate((it) => globalThis.__lesson?.core.svg(it, { width: 800, height: 600 }), link);
    assert.equal(in_page, core.svg(link, { width: 800, height: 600 }));
  }
});
