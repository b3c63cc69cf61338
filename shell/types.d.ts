// Shapes that the page's modules share: the core's, and what is the page's alone.
import type { Core, Session } from '../web/core.mjs';

export type * from '../web/core.mjs';

/** Exports of view.wasm that the page calls (see web/view). */
export interface ViewModule {
  HEAPU8: Uint8Array;
  _view_abi(): number;
  _view_start(dpr: number): number;
  _view_size(css_w: number, css_h: number, dpr: number): void;
  _view_items(bytes: number): number;
  _view_points(bytes: number): number;
  _view_text(bytes: number): number;
  _view_paint(theme: number, centre_x: number, centre_y: number, px_per_nm: number): void;
  _view_all_letters(): void;
  _view_frames(): number;
  _view_stop(): void;
}

declare global {
  /** For tests and for the curious; nothing in the page reads it. */
  var __lesson: { core: Core; session: Session; viewFrames(): number; frames(): number } | undefined;
}
