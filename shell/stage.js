// A mode that shows scenes of its own: the person's scene, layers and handles wait, and come back.

/** @typedef {import('./hub.js').Hub} Hub */

/** Layers that would give answers away, or crowd what is compared. */
const STAGED = ['no_correction', 'rule', 'exact', 'own', 'air_path', 'sectors', 'other_entry', 'area', 'limits'];

/** @param {Hub} hub */
export function createStage(hub) {
  const { session } = hub;
  /** Layers as the person had them. @type {Record<string, boolean>} */
  let layers = {};

  /** Of the staged layers these are on. @param {string[]} on */
  function show(on) {
    for (const name of STAGED) if (name in layers) hub.change(session.layer(name, on.includes(name)));
  }

  return {
    show,
    set() {
      layers = session.layers();
      hub.change(session.showHandles(false));
      // What is asked for is told in the picture afterwards.
      hub.change(session.layer('miss', true));
      show([]);
    },
    strike() {
      hub.change(session.pause());
      hub.change(session.beside('', ''));
      hub.ask(false);
      hub.change(session.showHandles(true));
      show(STAGED.filter((name) => layers[name]));
      hub.change(session.layer('miss', layers.miss ?? true));
      hub.giveBack();
      hub.change(session.fit());
    },
  };
}
