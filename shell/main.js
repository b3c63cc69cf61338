// Starts the page: the core first, then each part of the page on its session.
import { addressKey, addressLink, mountAddress, querySays } from './address.js';
import { mountAnnouncements } from './announce.js';
import { carried } from './carried.js';
import { findCourse } from './course-find.js';
import { byId } from './dom.js';
import { mountForm } from './form.js';
import { mountFrame } from './frame.js';
import { createHub } from './hub.js';
import { mountInstall } from './install.js';
import { mountInstructor } from './instructor.js';
import { once, sayMissing } from './later.js';
import { mountModes } from './modes.js';
import { endNotice, sayNotice } from './notice.js';
import { mountPainter } from './painter.js';
import { mountPanels } from './panels.js';
import { mountPicture } from './picture.js';
import { mountPlans } from './plans.js';
import { mountStrip } from './strip.js';
import { mountTakeAway } from './take-away-late.js';
import { say } from './text.js';
import { mountTheme } from './theme.js';
import { mountLayers, mountTools, mountZoom } from './tools.js';
import { mountTransport } from './transport.js';
import { fetchView } from './view-host.js';

/** How long the core may take before it is said that it does. */
const LONG_MS = 8000;

/** The picture and the text of the default scene stay; what is missing is said. */
/** @param {unknown} error */
function sayItFailed(error) {
  console.error(error);
  sayNotice(say('page.failed'));
  document.documentElement.dataset.ready = 'failed';
}

/** Says after a while that it does not come, until it does. @template T @param {Promise<T>} coming */
async function saidWhileLate(coming) {
  const timer = setTimeout(() => sayNotice(say('page.late')), LONG_MS);
  try {
    return await coming;
  } finally {
    clearTimeout(timer);
    endNotice();
  }
}

/** Of a page that no other page has in a frame. */
const NO_HOST = { ready() {}, mode() {}, told() {} };

async function start() {
  const core = await saidWhileLate(import('./core.mjs').then(({ load }) =>
    load({ first: true, wasm: carried('core.wasm'), more: carried('core-more.wasm') })));
  // Not beside the core: what a hand can act on comes first, and it acts on the SVG as well.
  fetchView();
  const session = core.session(addressLink());
  const hub = createHub(session);
  const picture = byId('picture', HTMLElement);

  mountPlans(hub);
  mountForm(hub);
  mountInstructor(hub);
  mountTransport(hub);
  mountStrip(hub);
  mountTools(hub);
  mountZoom(hub, picture);
  mountLayers(hub);
  mountTakeAway(hub, core);
  mountPicture(hub, picture);

  const course = once(async () => (await import('./course-part.js')).mountCourse());
  /** Of the modes that a course is told of. @returns {Promise<import('./course-part.js').CoursePart>} */
  async function audience() {
    const part = await course();
    return {
      ...part,
      told(state, is_answer) {
        part.told(state, is_answer);
        if (is_answer) host.told(state);
      },
    };
  }
  /** A module of the page, once the core's second part is there too. @template T @param {Promise<T>} coming */
  const beyond = async (coming) => (await Promise.all([coming, core.more()]))[0];
  const panels = mountPanels(hub, {
    clearance: async () => (await beyond(import('./panel-clearance.js'))).clearancePanel(hub, core),
    entry: async () => (await beyond(import('./panel-entry.js'))).entryPanel(hub),
    wind: async () => (await beyond(import('./panel-wind.js'))).windPanel(hub, core),
    laps: async () => (await beyond(import('./panel-laps.js'))).lapsPanel(),
    miss: async () => (await beyond(import('./panel-miss.js'))).missPanel(hub),
    displays: async () => (await beyond(import('./panel-displays.js'))).displaysPanel(hub),
    limits: async () => (await beyond(import('./panel-limits.js'))).limitsPanel(),
  }, () => writeAddress());
  const modes = mountModes(hub, {
    lesson: async () => (await beyond(import('./mode-lesson.js'))).lessonMode(hub, core, await audience()),
    practice: async () => (await beyond(import('./mode-practice.js'))).practiceMode(hub, core, () => writeAddress(), await audience()),
    fly: async () => (await beyond(import('./mode-fly.js'))).flyMode(hub, core),
    winds: async () => (await import('./mode-winds.js')).windsMode(hub, () => writeAddress()),
    card: async () => (await beyond(import('./mode-card.js'))).cardMode(hub),
    teach: async () => (await beyond(import('./mode-teach.js'))).teachMode(hub, core),
  }, () => host.mode());
  const { write: writeAddress, followFirst } = mountAddress(hub, panels.open, modes.keys, modes.open);
  const host = addressKey('host') === null ? NO_HOST
    : await import('./host.js').then(({ mountHost }) => mountHost(hub, core, modes, () => writeAddress()), (error) => {
      sayMissing(say('page.part.host'), error);
      return NO_HOST;
    });
  // A course in sight, or one that is to be there.
  if (addressKey('lms') !== null || findCourse(window)) await course().catch((error) => sayMissing(say('page.part.course'), error));
  mountFrame(hub);
  mountAnnouncements(hub);
  const painter = mountPainter(hub, picture);
  mountTheme(painter.repaint);
  for (const id of ['reset', 'copy', 'share', 'zoom-in', 'zoom-out', 'fit']) {
    byId(id, HTMLButtonElement).disabled = false;
  }

  await followFirst();
  // Else the row of modes could not lead away from what the query says.
  if (querySays()) writeAddress();
  hub.refresh();
  globalThis.__lesson = { core, session, viewFrames: painter.frames, frames: hub.frames };
  document.documentElement.dataset.ready = 'core';
  host.ready();
  mountInstall();
}

start().catch(sayItFailed);
