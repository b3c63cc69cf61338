// Shapes that the page's modules share. Angles are degrees magnetic, distances nautical
// miles, speeds knots, times seconds; `cross_nm` is positive toward the holding side.

/** One bit each: scenario (report, link, form), picture, clock (time or playing). */
export type ChangeMask = number;

export interface Problem { key: string; message: string }

export interface PlanRow {
  id: string;
  name: string;
  heading_deg: number | null;
  time_s: number | null;
  cross_nm: number | null;
  inbound_s: number | null;
  exists: boolean;
  why: string | null;
  flown: boolean;
  /** Role whose line this plan has in the picture; '' when it is not drawn. */
  role?: string;
}

/** `label` in words; `mark` is the short form that stands at the track. */
export interface FlightEvent { name: string; label: string; mark: string; at_s: number }

export interface Rollout {
  cross_nm: number; to_go_nm: number; inbound_s: number; at_s: number;
}

export interface Evaluation {
  fields: Record<string, string>;
  problems: Problem[];
  air: { tas_kt: number; ias_kt: number } | null;
  entry: { heading_deg: number | null; time_s: number | null } | null;
  /** Time of the leg by the book at this altitude. */
  published_s: number;
  rollout: Rollout | null;
  plans: PlanRow[];
  sum: string[];
  headline: string;
  outcome: string;
  summary: string;
  events: FlightEvent[];
  link: string;
}

export interface Live {
  t_s: number; start_s: number; end_s: number; playing: boolean; speed: number;
  heading_deg: number; track_deg: number; groundspeed_kt: number;
  /** Positive: the aircraft drifts to the right of its heading. */
  drift_deg: number;
  cross_nm: number; to_go_nm: number; x_nm: number; y_nm: number;
  /** Name of the event last passed; '' before the first. */
  phase: string;
}

/** The picture's records, valid until the next call into the core. */
export interface Diagram {
  items: Uint8Array; points: Uint8Array; text: Uint8Array;
  width: number; height: number; centre_x: number; centre_y: number; px_per_nm: number;
}

export interface Session {
  open(link: string): ChangeMask;
  /** `midway`: still being typed; such steps of one key are one step to undo. */
  set(key: string, value: string, midway?: boolean): ChangeMask;
  clear(key: string): ChangeMask;
  choose(planId: string): ChangeMask;
  undo(): ChangeMask;
  redo(): ChangeMask;
  reset(): ChangeMask;
  canUndo(): boolean;
  canRedo(): boolean;
  link(): string;
  report(): Evaluation;
  live(): Live;
  resize(width_px: number, height_px: number): ChangeMask;
  pointer(phase: number, id: number, x_px: number, y_px: number, coarse: boolean): ChangeMask;
  hit(x_px: number, y_px: number, coarse: boolean): number;
  /** Middle of a handle (1 wind, 2 inbound course, 3 arrival, 4 turns), CSS px. */
  handle(which: number): { x: number; y: number } | null;
  zoom(x_px: number, y_px: number, factor: number): ChangeMask;
  fit(): ChangeMask;
  play(): ChangeMask;
  pause(): ChangeMask;
  seek(t_s: number): ChangeMask;
  step(direction: number): ChangeMask;
  speed(multiplier: number): ChangeMask;
  tick(dt_s: number): ChangeMask;
  layer(name: string, on: boolean): ChangeMask;
  layers(): Record<string, boolean>;
  diagram(): Diagram;
  svg(): string;
}

export interface Core {
  evaluate(query: string): Evaluation;
  session(link?: string): Session;
  themeCss(): string;
  svg(query: string, options?: {
    width?: number; height?: number; theme?: 'light' | 'dark' | 'page'; time?: number;
  }): string;
}

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
  _view_frames(): number;
  _view_stop(): void;
}

declare global {
  /** For tests and for the curious; nothing in the page reads it. */
  var __lesson: { core: Core; session: Session; viewFrames(): number; frames(): number } | undefined;
}
