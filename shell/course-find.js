// Finds the course that shows the page: the object "API" of SCORM 1.2, in a window around it.

/** Frames within frames that are looked through; a chain that long is a fault. */
const MOST_FRAMES = 50;

/** Windows of another origin throw at every touch. @template T @param {() => T} get @returns {T | null} */
function looked(get) {
  try {
    return get() ?? null;
  } catch {
    return null;
  }
}

/**
 * In a window and the frames around it.
 * @param {any} from
 * @returns {import('./course.js').CourseApi | null}
 */
function upFrom(from) {
  let at = from;
  for (let i = 0; at && i < MOST_FRAMES; i += 1) {
    const here = at;
    const api = looked(() => here.API);
    if (api && looked(() => typeof api.LMSInitialize === 'function')) return api;
    const around = looked(() => here.parent);
    if (around === here) return null;
    at = around;
  }
  return null;
}

/**
 * The course's object, or null: around the page, then around the window that opened it, then
 * around the one that opened the outermost. Nothing throws.
 * @param {any} page The page's window.
 */
export function findCourse(page) {
  const opener = looked(() => page.opener);
  const outer = looked(() => page.top.opener);
  return upFrom(page) ?? (opener ? upFrom(opener) : null) ?? (outer && outer !== opener ? upFrom(outer) : null);
}
