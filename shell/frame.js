// Inside another page's frame: tells that page how high this one is, and leads to a page of its
// own. Nothing here waits for an answer.
import { sharedAddress } from './address.js';
import { byId } from './dom.js';

/** At most four heights a second. */
const EVERY_MS = 250;

/** @param {import('./hub.js').Hub} hub */
export function mountFrame(hub) {
  const link = byId('own-page', HTMLAnchorElement);
  for (const about of ['pointerdown', 'focus', 'click']) {
    link.addEventListener(about, () => { link.href = sharedAddress(hub.link()); });
  }
  if (window.parent !== window) tellHeight(window.parent);
}

/** @param {Window} host Whoever it is: the height says nothing of the learner. */
function tellHeight(host) {
  let told = 0;
  let timer = 0;
  function tell() {
    timer = 0;
    const height = Math.round(document.documentElement.getBoundingClientRect().height);
    if (height === told) return;
    told = height;
    host.postMessage({ type: 'lesson-height', v: 1, height }, '*');
    // As Canvas has it for what it shows in frames.
    host.postMessage({ subject: 'lti.frameResize', height }, '*');
    timer = window.setTimeout(tell, EVERY_MS);
  }
  // Told at once; what follows within the time waits for its end, and is told by its last height.
  new ResizeObserver(() => { if (timer === 0) tell(); }).observe(document.documentElement);
}
