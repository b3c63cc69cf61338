// A part of the page that fails is said, and the others go on.
import { endNotice, sayNotice } from './notice.js';
import { say } from './text.js';

/** Said already: what fails with every frame is said once. @type {Set<string>} */
const said = new Set();

/** @param {string} part As the page calls it; empty: it has no name there. @param {unknown} error */
function sayFailed(part, error) {
  if (said.has(part)) return;
  said.add(part);
  console.error(error);
  sayNotice(part ? say('page.part.failed', { part }) : say('page.part.failed.some'));
}

/**
 * What the work gives, or nothing where it fails, now or later.
 * @template T
 * @param {string} part @param {() => T} work
 * @returns {T | undefined}
 */
export function guarded(part, work) {
  try {
    const given = work();
    if (given instanceof Promise) given.catch((error) => sayFailed(part, error));
    return given;
  } catch (error) {
    sayFailed(part, error);
    return undefined;
  }
}

/** A part is opened, anew perhaps: what was said of others is over. @param {string} part */
export function opening(part) {
  said.delete(part);
  endNotice();
}
