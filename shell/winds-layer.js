// The cloud over the picture: a canvas of its own above canvas and SVG alike. It follows the
// picture's view at once, by what was painted last, until the newer painting comes.
import { byId } from './dom.js';
import { linesIn } from './winds-map.js';

/** @typedef {import('./study-work.js').CloudPicture} CloudPicture */
/** @typedef {import('./study-work.js').CloudView} CloudView */

const OUTLINE_PX = 1.5;
/** The outline that holds this share is drawn whole, the other one dashed. */
const HALF = 0.5;

/** @param {string} name Of a colour of the page, #rrggbb. */
const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();
/** @param {string} name */
const ink = (name) => Number.parseInt(colour(name).slice(1), 16) || 0;

/**
 * @param {import('./types').Session} session
 * @param {() => number} scale Painted pixels for one of the picture's.
 * @param {() => void} onSize
 */
export function createCloudLayer(session, scale, onSize) {
  const picture = byId('picture', HTMLElement);
  const canvas = document.createElement('canvas');
  canvas.className = 'cloud-layer';
  canvas.setAttribute('aria-hidden', 'true');
  const painted = document.createElement('canvas');
  /** @type {CloudPicture | null} */
  let cloud = null;

  /** The picture's, in pixels that are painted. @returns {CloudView} */
  function view() {
    const { centre_x, centre_y, px_per_nm, width, height } = session.diagram();
    const by = scale();
    return { centre_x, centre_y, px_per_nm: px_per_nm * by, width_px: Math.round(width * by), height_px: Math.round(height * by) };
  }

  function draw() {
    if (!cloud) return;
    const { centre_x, centre_y, px_per_nm, width, height } = session.diagram();
    const ratio = devicePixelRatio;
    const wide = Math.round(width * ratio);
    const high = Math.round(height * ratio);
    if (canvas.width !== wide || canvas.height !== high) {
      canvas.width = wide;
      canvas.height = high;
      canvas.style.width = `${width}px`;
      canvas.style.height = `${height}px`;
    }
    if (!canvas.isConnected) picture.append(canvas);
    const context = canvas.getContext('2d');
    if (!context) return;
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, wide, high);
    if (painted.width === 0 || cloud.pixels.length === 0) return;
    // North is up in the view, down in the canvas.
    context.setTransform(ratio, 0, 0, ratio, (wide - 2 * centre_x * px_per_nm * ratio) / 2, (high + 2 * centre_y * px_per_nm * ratio) / 2);
    const made = cloud.wanted.view;
    const by = px_per_nm / made.px_per_nm;
    context.drawImage(painted, (made.centre_x - made.width_px / 2 / made.px_per_nm) * px_per_nm,
      -(made.centre_y + made.height_px / 2 / made.px_per_nm) * px_per_nm, made.width_px * by, made.height_px * by);
    for (const [ink_name, width_px] of /** @type {const} */ ([['--paper', 2.5 * OUTLINE_PX], ['--ink', OUTLINE_PX]])) {
      context.strokeStyle = colour(ink_name);
      context.lineWidth = width_px;
      for (const { level, points } of linesIn(cloud.lines)) {
        context.setLineDash(level === HALF ? [] : [5, 4]);
        context.beginPath();
        for (const [x, y] of points) context.lineTo(x * px_per_nm, -y * px_per_nm);
        context.closePath();
        context.stroke();
      }
    }
  }

  new ResizeObserver(onSize).observe(picture);
  return {
    view,
    draw,
    inks: () => ({ rollouts: ink('--miss'), tracks: ink('--accent') }),
    /** @param {CloudPicture} newer */
    take(newer) {
      cloud = newer;
      const { width_px, height_px } = newer.wanted.view;
      if (newer.pixels.length) {
        painted.width = width_px;
        painted.height = height_px;
        painted.getContext('2d')?.putImageData(new ImageData(newer.pixels, width_px), 0, 0);
      }
      draw();
    },
    clear() {
      cloud = null;
      canvas.remove();
    },
  };
}
