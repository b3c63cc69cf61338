// The mode "All winds": a map of what a plan does in every wind, the cloud of what cannot be known
// over the person's own scene, and what one thing at a time does. Every number is the study
// module's, which is fetched when the mode is first opened.
import { hashOf, takesHash } from './address.js';
import { byId } from './dom.js';
import { createLending } from './panels.js';
import { createStudyHost } from './study-host.js';
import { mountCard } from './winds-card.js';
import { mountChart } from './winds-chart.js';
import { mountChoice } from './winds-choice.js';
import { mountCloud } from './winds-cloud.js';

/**
 * @param {import('./hub.js').Hub} hub
 * @param {() => void} writeAddress
 * @returns {import('./modes.js').Mode}
 */
export function windsMode(hub, writeAddress) {
  const section = byId('mode-winds', HTMLElement);
  const lending = createLending();
  const host = createStudyHost({
    ready: (unknowns) => cloud.ready(unknowns),
    map: (picture) => chart.show(picture),
    cloud: (picture) => cloud.show(picture),
    shares: (info) => cloud.showShares(info),
    failed: () => works(false),
  });
  /** @param {boolean} on */
  function works(on) {
    byId('winds-failed', HTMLElement).hidden = on;
    byId('winds-body', HTMLElement).hidden = !on;
  }
  const choice = mountChoice(() => {
    chart.tellNext();
    chart.ask();
    cloud.ask();
    writeAddress();
  });
  const chart = mountChart(hub, host, choice);
  const cloud = mountCloud(hub, host, () => choice.choice().tolerance_nm, writeAddress);
  const card = mountCard(hub, host);
  const study = document.getElementById('winds-study');
  // The single file does not have that page. All of the choice, since other things are usual there.
  if (study instanceof HTMLAnchorElement) takesHash(study, () => hashOf(hub.link(), { mode: 'winds', ...choice.keys({}) }));

  function read() {
    choice.read();
    cloud.read();
  }
  return {
    open() {
      works(true);
      read();
      lending.lendTo(section);
      chart.open();
      cloud.open();
    },
    close() {
      lending.takeBack();
      chart.close();
      cloud.close();
    },
    address() {
      read();
      chart.ask();
      cloud.open();
    },
    keys: () => ({ ...choice.keys(), ...cloud.keys() }),
    scenario(report) {
      chart.scenario(report);
      card.ask();
    },
  };
}
