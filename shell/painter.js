// Shows the diagram: by the canvas where there is one, else as SVG. Follows size, pixel
// ratio, theme, and whether the picture is in sight.
import { byId, svgNode, write } from './dom.js';
import { paintedTheme } from './theme.js';
import { createViewHost } from './view-host.js';

/** An SVG is built anew at most this often while it plays. */
const SVG_EVERY_MS = 33;

/** @param {string} text @returns {Element} */
function parsedSvg(text) {
  const svg = svgNode(text);
  svg.querySelector('title')?.remove();  // it would pop up under the pointer
  svg.setAttribute('aria-hidden', 'true');  // the page has named what it stands in
  return svg;
}

/** Calls back whenever the pixel ratio changes: a query answers for one ratio only. */
/** @param {() => void} onChange */
function watchPixelRatio(onChange) {
  matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener('change', () => {
    onChange();
    watchPixelRatio(onChange);
  }, { once: true });
}

/** @param {() => void} work */
function whenIdle(work) {
  if ('requestIdleCallback' in window) requestIdleCallback(work);
  else setTimeout(work, 200);
}

/**
 * @param {import('./hub.js').Hub} hub
 * @param {HTMLElement} picture
 */
export function mountPainter(hub, picture) {
  const { session } = hub;
  const size = () => ({
    width: Math.max(1, Math.floor(picture.clientWidth)),
    height: Math.max(1, Math.floor(picture.clientHeight)),
  });
  const words = byId('picture-words', HTMLElement);
  let in_sight = true;
  let svg_ms = -Infinity;
  /** What the canvas was made for. */
  let ratio = 0;
  /** The page came with a picture of this scene. */
  let is_opening = session.link() === '';

  const host = createViewHost(picture, size, (on) => {
    if (!on) showSvg();
    if (on) whenIdle(host.finish);
    hub.refresh();
    if (on) document.documentElement.dataset.ready = 'view';
  });

  function showSvg() {
    const svg = parsedSvg(session.svg());
    for (const old of [...picture.children]) if (old.tagName !== 'CANVAS') old.remove();
    picture.append(svg);
  }

  function hideSvg() {
    for (const old of [...picture.children]) if (old.tagName !== 'CANVAS') old.remove();
  }

  function fitToSize() {
    const { width, height } = size();
    ratio = devicePixelRatio;
    host.resize();
    hub.change(session.resize(width, height));
    // A canvas of a new size is empty: it must not be seen so, not even for one frame.
    if (host.isOn()) host.paint(session.diagram(), paintedTheme());
  }

  hub.add({
    paint(now_ms) {
      write(words, session.pictureWords());
      // Out of sight nothing is drawn; coming back into sight draws it.
      if (!in_sight) return false;
      if (host.isOn()) {
        // Two changes in a row may be told as none.
        if (ratio !== devicePixelRatio) fitToSize();
        host.paint(session.diagram(), paintedTheme());
        hideSvg();
        return false;
      }
      // What the page came with stays for the moment until the canvas is there, unless it says what
      // is no longer so.
      is_opening &&= session.link() === '' && !session.live().playing;
      if (is_opening && host.isComing()) return false;
      if (now_ms - svg_ms < SVG_EVERY_MS) return true;
      svg_ms = now_ms;
      showSvg();
      return false;
    },
  });

  fitToSize();
  new ResizeObserver(fitToSize).observe(picture);
  // The event may come between two sizes of the window, in a layout that no frame will have.
  watchPixelRatio(() => requestAnimationFrame(fitToSize));
  new IntersectionObserver(([entry]) => {
    in_sight = entry.isIntersecting;
    if (in_sight) hub.refresh();
  }).observe(picture);

  host.start();

  return { frames: host.frames, repaint: hub.refresh };
}
