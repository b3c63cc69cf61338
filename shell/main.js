// Starts the page: the core first, then each part of the page on its session.
import { addressLink, addressView, mountAddress, querySays } from './address.js';
import { mountAnnouncements } from './announce.js';
import { mountCourse } from './course-part.js';
import { carried } from './carried.js';
import { byId } from './dom.js';
import { mountForm } from './form.js';
import { mountFrame } from './frame.js';
import { mountHost } from './host.js';
import { createHub } from './hub.js';
import { mountInstall } from './install.js';
import { mountInstructor } from './instructor.js';
import { cardMode } from './mode-card.js';
import { flyMode } from './mode-fly.js';
import { lessonMode } from './mode-lesson.js';
import { practiceMode } from './mode-practice.js';
import { teachMode } from './mode-teach.js';
import { windsMode } from './mode-winds.js';
import { mountModes } from './modes.js';
import { mountPainter } from './painter.js';
import { clearancePanel } from './panel-clearance.js';
import { displaysPanel } from './panel-displays.js';
import { entryPanel } from './panel-entry.js';
import { lapsPanel } from './panel-laps.js';
import { limitsPanel } from './panel-limits.js';
import { missPanel } from './panel-miss.js';
import { windPanel } from './panel-wind.js';
import { mountPanels } from './panels.js';
import { mountPicture } from './picture.js';
import { mountPlans } from './plans.js';
import { mountStrip } from './strip.js';
import { mountTakeAway } from './take-away.js';
import { mountSnippet } from './teach-embed.js';
import { say } from './text.js';
import { mountTheme } from './theme.js';
import { mountLayers, mountTools, mountZoom } from './tools.js';
import { mountTransport } from './transport.js';

/** The picture and the text of the default scene stay; what is missing is said. */
/** @param {unknown} error */
function sayItFailed(error) {
  console.error(error);
  const notice = byId('notice', HTMLElement);
  notice.textContent = say('page.failed');
  notice.hidden = false;
  document.documentElement.dataset.ready = 'failed';
}

async function start() {
  const { load } = await import('./core.mjs');
  const core = await load({ wasm: carried('core.wasm') });
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
  const panels = mountPanels(hub, {
    plan: {},
    clearance: clearancePanel(hub, core),
    entry: entryPanel(hub),
    wind: windPanel(hub, core),
    laps: lapsPanel(),
    miss: missPanel(hub),
    displays: displaysPanel(hub),
    limits: limitsPanel(),
  }, () => writeAddress());
  const course = mountCourse();
  /** @type {import('./course-part.js').CoursePart} */
  const audience = {
    ...course,
    told(state, is_answer) {
      course.told(state, is_answer);
      if (is_answer) host.told(state);
    },
  };
  const modes = mountModes(hub, {
    lesson: lessonMode(hub, core, audience),
    practice: practiceMode(hub, core, () => writeAddress(), audience),
    fly: flyMode(hub, core),
    winds: windsMode(hub, () => writeAddress()),
    card: cardMode(hub),
    teach: teachMode(core),
  }, () => host.mode());
  const writeAddress = mountAddress(hub, panels.open, modes.keys, modes.open);
  const host = mountHost(hub, core, modes, () => writeAddress());
  mountFrame(hub);
  mountSnippet(hub);
  mountAnnouncements(hub);
  const painter = mountPainter(hub, picture);
  mountTheme(painter.repaint);
  for (const id of ['reset', 'copy', 'share', 'zoom-in', 'zoom-out', 'fit']) {
    byId(id, HTMLButtonElement).disabled = false;
  }

  panels.open(addressView());
  modes.open();
  // Else the row of modes could not lead away from what the query says.
  if (querySays()) writeAddress();
  hub.refresh();
  globalThis.__lesson = { core, session, viewFrames: painter.frames, frames: hub.frames };
  document.documentElement.dataset.ready = 'core';
  host.ready();
  mountInstall();
}

start().catch(sayItFailed);
