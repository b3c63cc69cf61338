// The worker of the example: it has a core of its own, so the page stays quick meanwhile.
import { load } from '../core.mjs';

/** @typedef {{from_deg: number, speed_kt: number, cross_nm: number | null}} Patch `null`: nothing rolls out. */
/** @typedef {{job: number, patches: Patch[]} | {failed: string}} Word What the worker says. */

/** @param {Word} word */
const tell = (word) => postMessage(word);

/** Asked last; an older job stops where it is. */
let latest = 0;
const loading = load();
loading.catch((error) => tell({ failed: String(error) }));

addEventListener('message', async ({ data: { job, link, directions, speeds } }) => {
  latest = job;
  const core = await loading;
  for (const speed_kt of speeds) {
    tell({
      job,
      patches: directions.map((/** @type {number} */ from_deg) => {
        const { rollout } = core.evaluate(`${link}&wind=${from_deg}/${speed_kt}`);
        return { from_deg, speed_kt, cross_nm: rollout && rollout.cross_nm };
      }),
    });
    // Another question may have come in.
    await new Promise((done) => { setTimeout(done); });
    if (job !== latest) return;
  }
});
