// The canvas painter (view.mjs) and its life: started late, replaced when the graphics
// context is lost, never needed. While it is not there the SVG of the same diagram stands.

import { carried } from './carried.js';
import { once } from './later.js';

/** Layout version of the records that this page hands over; see web/ and core/diagram.h. */
const VIEW_ABI = 1;
/** Waits before trying again after a lost context; then the SVG stays. */
const RETRY_MS = [300, 1500, 5000];

/** @typedef {import('./types').ViewModule} ViewModule */
/** @typedef {import('./types').Diagram} Diagram */

/** Whether the address asks for the page without WebGL. */
const refused = () => /[?&#]webgl=false(&|#|$)/.test(location.search + location.hash);

/** view.wasm, compiled while it comes where that can be. @returns {Promise<WebAssembly.Module>} */
async function compiledView() {
  const bytes = carried('view.wasm');
  if (bytes) return WebAssembly.compile(bytes);
  const answer = await fetch('view.wasm');
  if (!answer.ok) throw new Error(`view.wasm: ${answer.status}`);
  const is_typed = answer.headers.get('Content-Type')?.startsWith('application/wasm');
  return is_typed ? WebAssembly.compileStreaming(answer) : WebAssembly.compile(await answer.arrayBuffer());
}

const fetchedView = once(() => Promise.all([import('./view.mjs'), compiledView()]));

/** Fetches the painter, where it is wanted. */
export function fetchView() {
  // Who starts it says what went wrong.
  if (!refused()) fetchedView().catch(() => {});
}

/** @param {HTMLElement} picture @param {{width: number, height: number}} size */
function makeCanvas(picture, size) {
  const canvas = document.createElement('canvas');
  canvas.id = 'canvas';
  // SDL looks for #canvas in the document; it stays under the SVG until it has painted.
  canvas.style.width = `${size.width}px`;
  canvas.style.height = `${size.height}px`;
  picture.prepend(canvas);
  return canvas;
}

/**
 * @param {HTMLElement} picture
 * @param {() => {width: number, height: number}} size Whole CSS pixels.
 * @param {(on: boolean) => void} onTurn The canvas is there now, or is gone.
 */
export function createViewHost(picture, size, onTurn) {
  /** @type {ViewModule | null} */
  let view = null;
  /** @type {HTMLCanvasElement | null} */
  let canvas = null;
  /** It may yet come. */
  let coming = !refused();
  let losses = 0;
  /** Frames painted by the modules that are gone. */
  let frames_before = 0;

  function dismiss() {
    const old = view;
    view = null;
    try {
      if (old) frames_before += old._view_frames();
      old?._view_stop();
    } catch {
      // A module without its context may fail on the way out: it is dropped all the same.
    }
    canvas?.remove();
    canvas = null;
  }

  /** @param {Event} event */
  function lost(event) {
    event.preventDefault();
    dismiss();
    onTurn(false);
    const wait = RETRY_MS[losses];
    losses += 1;
    if (wait !== undefined) setTimeout(start, wait);
  }

  async function start() {
    if (refused() || view) return;
    try {
      const [{ default: createView }, compiled] = await fetchedView();
      const made = makeCanvas(picture, size());
      canvas = made;
      made.addEventListener('webglcontextlost', lost, { once: true });
      /** @type {ViewModule} */
      const module = await new Promise((done, fail) => {
        createView({
          canvas: made,
          instantiateWasm(imports, take) {
            WebAssembly.instantiate(compiled, imports).then(take, fail);
            return {};
          },
        }).then(done, fail);
      });
      if (canvas !== made) return;
      if (module._view_abi() !== VIEW_ABI) throw new Error('view.wasm is of another version');
      if (module._view_start(devicePixelRatio) !== 1) throw new Error('no WebGL');
      view = module;
      coming = false;
      resize();
      onTurn(true);
    } catch (error) {
      console.info(`The picture stays an SVG: ${error instanceof Error ? error.message : error}`);
      dismiss();
      if (coming) onTurn(false);
      coming = false;
    }
  }

  function resize() {
    if (!view || !canvas) return;
    const { width, height } = size();
    canvas.style.width = `${width}px`;
    canvas.style.height = `${height}px`;
    view._view_size(width, height, devicePixelRatio);
  }

  /** @param {Diagram} d @param {number} theme */
  function paint(d, theme) {
    if (!view) return;
    view.HEAPU8.set(d.items, view._view_items(d.items.length));
    view.HEAPU8.set(d.points, view._view_points(d.points.length));
    view.HEAPU8.set(d.text, view._view_text(d.text.length));
    view._view_paint(theme, d.centre_x, d.centre_y, d.px_per_nm);
  }

  return {
    start, resize, paint,
    /** What the first picture did without, while nobody waits. */
    finish: () => view?._view_all_letters(),
    isOn: () => view !== null,
    /** The first canvas is on its way. */
    isComing: () => coming,
    frames: () => frames_before + (view ? view._view_frames() : 0),
  };
}
