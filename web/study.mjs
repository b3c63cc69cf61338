// study.mjs - loads study.wasm: maps over all winds, and clouds of what cannot be known. For
// workers, pages without one, and Node.js; web/study.d.mts says what each call does.
import { compiled, siblingWasm, started, textPort } from './wasm.mjs';

const ABI = 1;
const MAPPED = ['miss', 'inbound', 'intercept', 'multiple', 'laps'];
const PLANS = ['still-air', 'drift-once', 'track-30', 'drift-triple', 'own', 'best'];
const UNKNOWNS = /** @type {const} */ (['wind-from', 'wind-speed', 'heading', 'clock', 'speed', 'turn-start']);
const THEMES = ['light', 'dark', 'contrast_light', 'contrast_dark'];

/** The least module that uses SIMD: i32.const 0, i8x16.splat, drop. */
const WITH_SIMD = new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 10, 9, 1, 7, 0,
  65, 0, 253, 15, 26, 11]);

/** @type {typeof import('./study.d.mts').hasSimd} */
export const hasSimd = () => WebAssembly.validate(WITH_SIMD);

/** @param {string[]} names @param {string} name */
const numberOf = (names, name) => Math.max(0, names.indexOf(name));

/** @type {typeof import('./study.d.mts').load} */
export async function load({ wasm: source, simd = hasSimd() } = {}) {
  const wasm = await started(await compiled(source ?? await siblingWasm(simd ? 'study-simd.wasm' : 'study.wasm')));
  if (wasm.study_abi() !== ABI) throw new Error('study.wasm and study.mjs are of different builds');
  const { give, take } = textPort(wasm);
  /** @param {number} at */
  const lines = (at) => new Float32Array(wasm.memory.buffer, at, wasm.study_lines_size());
  return {
    scene: (query) => (give(String(query ?? '')), wasm.study_scene()),
    map: {
      begin: ({ mapped = 'miss', plan = 'drift-once', less = null, most_kt = 60, tolerance_nm = 0.25, finest = 1 }) =>
        wasm.study_map_begin(numberOf(MAPPED, mapped), numberOf(PLANS, plan), less === null ? -1 : PLANS.indexOf(less),
          most_kt, tolerance_nm, finest),
      work: (winds) => wasm.study_map_work(winds) === 1,
      image(size_px, theme = 'light') {
        const at = wasm.study_map_image(size_px, numberOf(THEMES, theme));
        return at ? new Uint8ClampedArray(wasm.memory.buffer, at, 4 * size_px * size_px) : null;
      },
      lines: () => lines(wasm.study_map_lines()),
      value(from_deg, kt) {
        const value = wasm.study_map_value(from_deg, kt);
        return Number.isNaN(value) ? null : value;
      },
      info: () => (wasm.study_map_info(), JSON.parse(take())),
      colours: (theme = 'light') => (wasm.study_map_colours(numberOf(THEMES, theme)), JSON.parse(take())),
    },
    cloud: {
      unknowns: () => (wasm.study_cloud_unknowns(), JSON.parse(take())),
      begin(spread, seed) {
        wasm.study_cloud_begin(...UNKNOWNS.map((name) => spread[name]), seed >>> 0);
      },
      fly: (count) => wasm.study_cloud_fly(count),
      share: (count) => wasm.study_cloud_share(count),
      info: (tolerance_nm) => (wasm.study_cloud_info(tolerance_nm), JSON.parse(take())),
      image({ centre_x, centre_y, px_per_nm, width_px, height_px }, { rollouts, tracks, count }) {
        const at = wasm.study_cloud_image(centre_x, centre_y, px_per_nm, width_px, height_px, rollouts, tracks, count);
        return at ? new Uint8ClampedArray(wasm.memory.buffer, at, 4 * width_px * height_px) : null;
      },
      lines: () => lines(wasm.study_cloud_lines()),
    },
    rules: () => (wasm.study_rules(), JSON.parse(take())),
    sensitivity: () => (wasm.study_sensitivity(), JSON.parse(take())),
  };
}
