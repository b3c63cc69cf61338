// The mode "Teach": the package that an instructor makes in the page.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { axeFindsNothing } from './access.mjs';
import { PACKAGE, faultsOf, unzipped } from './course-files.mjs';
import { lessons, text } from './lesson.mjs';

const lesson = await lessons();

lesson.test('an instructor makes a package in the page: that of the build where the choices are the same', { at: '?webgl=false#mode=teach' }, async (page) => {
  await axeFindsNothing(page, 'teach');
  await page.locator('#teach-mark').fill('0');
  await page.locator('#teach-make').click();
  assert.match(await text(page, '#teach-problem'), /pass mark is 0; allowed is 1 to 100/);
  await page.locator('#teach-mark').fill('80');
  await page.locator('#teach-code').fill('12345');
  await page.locator('#teach-make').click();
  assert.match(await text(page, '#teach-problem'), /12345/);
  await page.locator('#teach-code').fill('');
  const made = async () => {
    const [file] = await Promise.all([page.waitForEvent('download'), page.locator('#teach-make').click()]);
    return readFile(/** @type {string} */ (await file.path()));
  };
  assert.ok((await made()).equals(await readFile(PACKAGE)), 'the same bytes');
  await page.locator('#teach-title').fill('Week 3');
  await page.locator('#teach-set').selectOption('left-turns');
  await page.locator('#teach-new-code').click();
  const code = await page.locator('#teach-code').inputValue();
  await page.locator('input[name=teach-goal][value=practice]').check();
  assert.equal(await page.locator('#teach-mark').isVisible(), false);
  const manifest = String(unzipped(await made()).get('imsmanifest.xml'));
  assert.equal(await faultsOf(manifest), '');
  assert.match(manifest, new RegExp(`mode=practice&amp;set=left-turns&amp;code=${code}"`));
  assert.match(manifest, /<title>Week 3</);
  assert.match(await text(page, '#teach-said'), /Upload it/);
});
