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

/** What it takes to make good a course; `wca_deg` is + to the right. */
export interface Triangle { wca_deg: number; heading_deg: number; groundspeed_kt: number }

export type Book = 'faa' | 'icao';
export type Side = 'left' | 'right';

/** One of the three entries; where it cannot be flown `why` says so. */
export interface EntryRow {
  kind: 'offset' | 'parallel' | 'direct';
  /** By the book in use. */
  label: string;
  acceptable: boolean; in_sector: boolean; flown: boolean;
  heading_deg: number | null; time_s: number | null;
  first_turn: Side | null; first_turn_deg: number | null;
  turn: Side | null; turn_deg: number | null;
  rollout: Rollout | null;
  on_course_s: number | null; fix_again_s: number | null; fix_missed: boolean;
  exact: ExactPlan | null;
  why: string | null;
  steps: string[];
}

export interface ExactPlan { exists: boolean; heading_deg: number | null; time_s: number | null; why: string | null }

export interface Lap {
  outbound_heading_deg: number; outbound_s: number; inbound_s: number; cross_nm: number; to_go_nm: number;
  /** + right of the outbound course. */
  correction_deg?: number;
  ended_by?: EndedBy | null; advice?: string; words?: string;
}

export type EndedBy = 'time' | 'distance' | 'dme' | 'radial';

export interface Multiples {
  inbound_wca_deg: number; exact: number | null; why: string | null;
  rows: { multiple: number; label: string; heading_deg: number; outbound_s: number | null; cross_nm: number | null }[];
  words: string[];
  by_wind: {
    from_deg: number; speed_kt: number; exact: number | null;
    triple_cross_nm: number | null; once_cross_nm: number | null;
  }[];
}

/** A rule of thumb beside the exact plan: common practice, no source. */
export interface Practice {
  id: string; title: string; says: string; today: string; exact: string; good: boolean; words: string;
}

export interface SpeedRow {
  above_ft: number | null; up_to_ft: number | null; ias_kt: number | null; mach: number | null; now: boolean;
}

export interface Limits {
  rule: string; label: string; speed_kt: number | null; mach: number | null; ias_kt: number;
  margin_kt: number | null; within: boolean; words: string;
  slow_down: { distance_nm: number; words: string } | null;
  rate: { limited: boolean; turn_rate_deg_s: number; standard_bank_deg: number; words: string };
  tables: { rule: string; book: Book; label: string; rows: SpeedRow[] }[];
  exceptions: string[];
  bank_words: string;
}

export interface Area {
  exists: boolean; why: string | null; caption: string; words: string;
  inside: { basic_nm: number; entry_nm: number; buffer_nm: number } | null;
  inside_words: string; faa_wind_words: string;
}

export interface Displays {
  aid: string; scale: string; scale_label: string; cone_words: string;
  moments: { name: string; label: string; at_s: number }[];
  words: string | string[];
}

/** Winds that explain what was seen. */
export interface Inferred {
  determined: boolean; why: string | null;
  winds: { from_deg: number; speed_kt: number; from_pm_deg: number | null; speed_pm_kt: number | null }[];
  tells: string[]; advice: string[];
  next: { heading_deg: number; time_s: number } | null;
}

export interface StationReport {
  place: 'fix' | 'ahead' | 'behind';
  fix_dme_nm: number; ground_nm: number; height_ft: number;
  end_dme_nm: number | null; end_ground_nm: number | null; words: string[];
}

/**
 * What evaluate() says. A part that came later than the first form of the page is optional:
 * where it is missing or null the page shows nothing of it.
 */
export interface Evaluation {
  book?: { id: Book; label: string; words: string[] } | null;
  sector?: string | null;
  entries?: EntryRow[] | null;
  sector_boundary_deg?: number | null;
  station?: StationReport | null;
  laps?: Lap[] | null;
  /** When the clock of a lap starts today. */
  timing?: string | string[] | null;
  multiples?: Multiples | null;
  practice?: Practice[] | null;
  limits?: Limits | null;
  area?: Area | null;
  displays?: Displays | null;
  roll?: { deg_s: number; roll_s: number; cross_change_nm: number | null; to_go_change_nm: number | null; words: string } | null;
  wind_model?: string[] | null;
  inferred?: Inferred | null;
  clearance?: { text: string; spoken: string; published: string; steps: string[] } | null;
  fields: Record<string, string>;
  problems: Problem[];
  air: { tas_kt: number; ias_kt: number } | null;
  wind: Record<'arrival' | 'inbound' | 'outbound', Triangle | null>;
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

/** What the navigation displays show at a moment. */
export interface Needle {
  /** Share of full scale, −1 to 1, + right. */
  deflection: number; dots: number; flag: 'to' | 'from' | 'none';
  reversed: boolean; reliable: boolean;
  bearing_deg: number | null; relative_deg: number | null; dme_nm: number | null;
  words: string;
}

export interface Live {
  needle?: Needle | null;
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
  /** Another scene for a while: the one before waits, with its history. */
  visit(link: string): ChangeMask;
  back(): ChangeMask;
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
  /** A second scenario's flight beside the first, named at its end; an empty link takes it away. */
  beside(link: string, label?: string): ChangeMask;
  /** Off: nothing beyond the fix is drawn, nor said in the picture's text alternative. */
  showFlight(on: boolean): ChangeMask;
  /** The flights are drawn as far as the clock, and told once they are flown. */
  growFlight(): ChangeMask;
  /** Off: the picture cannot be taken hold of. */
  showHandles(on: boolean): ChangeMask;
  layers(): Record<string, boolean>;
  diagram(): Diagram;
  /** 'light' where it is not said. */
  svg(theme?: 'light' | 'dark' | 'contrast_light' | 'contrast_dark'): string;
  /**
   * Flying by hand, from the present scene. Until flyLeave, or another scene, clock, live
   * readings, needles and picture are those of that flight; play, pause and speed (1 to 8) are
   * its clock's. `seed`: a wind drawn by it in place of the scene's.
   */
  flyStart(options?: { windShown?: boolean; seed?: number }): ChangeMask;
  /** `way`: -1 left, 0 the shorter, 1 right. */
  flyBug(heading_deg: number, way?: number): ChangeMask;
  /** Until told otherwise. `side`: -1 left, 1 right. */
  flyTurn(side: number): ChangeMask;
  flyLevel(): ChangeMask;
  /** Starts the stopwatch, or starts it again. */
  flyClock(): ChangeMask;
  flyEnd(): ChangeMask;
  flyLeave(): ChangeMask;
  flyState(): FlyState;
  flyDebrief(): Debrief | null;
  /** The scene that was flown, with the student's own heading and time after the debrief. */
  flyLink(): string;
}

/** What the cockpit shows. Of "off" only `phase` and `why` (the flight cannot begin) are there. */
export interface FlyState {
  phase: 'off' | 'flying' | 'debrief';
  why?: string | null;
  t_s: number; playing: boolean; speed: number;
  heading_deg: number; turning: 'left' | 'right' | 'none';
  /** Heading last asked for; null after a turn or wings level. */
  bug_deg: number | null;
  stopwatch_s: number | null;
  commands_left: number;
  /** The longest flight is flown: an hour after the fix. */
  over: boolean;
  wind_shown: boolean;
  wind: { from_deg: number; speed_kt: number } | null;
  /** How often the fix was passed within 1 NM, and how near the last time. */
  passages: number; passage_nm: number | null;
  summary: string;
}

/** One round as it was flown; what was not found is null. */
export interface FlownRound {
  start_s: number;
  heading_deg: number | null; first_turn_deg: number | null; level_s: number | null; abeam_s: number | null;
  clock_s: number | null; turn_s: number | null; turn_deg: number | null; outbound_s: number | null;
  rollout: { cross_nm: number; to_go_nm: number; at_s: number } | null;
  on_course_s: number | null;
  fix_s: number | null; fix_cross_nm: number | null; inbound_s: number | null;
}

/** What was flown by hand against what would have been exact. */
export interface Debrief {
  end_s: number;
  kind: EntryRow['kind'] | null; acceptable: boolean; compared: EntryRow['kind']; entry_label: string;
  passage_nm: number | null;
  rule: { heading_deg: number; time_s: number } | null;
  exact: { heading_deg: number; time_s: number; rollout: FlownRound['rollout'] } | null;
  /** The entry, then laps. */
  rounds: FlownRound[];
  wind: { from_deg: number; speed_kt: number };
  wanted_s: number | null;
  /** `about`: entry, heading, clock, outbound, roll-out, intercept, inbound, lap, wind, next. */
  lines: { about: string; text: string }[];
}

/** A hold clearance as it was read; `link` has the keys that it determines. */
export interface ReadClearance {
  heard: Record<string, unknown>;
  inbound_deg: number | null; turns: Side | null; leg_s: number | null; leg_nm: number | null;
  outbound_end_dme_nm: number | null; efc: string | null;
  steps: string[]; contradictions: string[]; problems: string[]; unread: string[];
  link: string;
}

export interface WindPeriod { label: string; from_deg: number | null; speed_kt: number | null; gust_kt: number | null; link?: string }

/** A kind of wind report and what its direction refers to. */
export interface ReportKind {
  kind: string; label: string; ref: 'true' | 'magnetic';
  where: string; why: string; rule: string; source: string; mark: string;
}

/** A wind report as it was read. */
export interface ReadWindReport {
  kind: string | null; from_deg: number | null; speed_kt: number | null; ref: 'true' | 'magnetic' | null;
  gust_kt: number | null; temperature_c: number | null; isa_c: number | null;
  steps: string[]; problems: string[]; periods: WindPeriod[]; link: string;
}

export type SkillName = 'entry' | 'heading' | 'wind' | 'timing' | 'clearance';
/** How much of an item is given. */
export type LevelName = 'worked' | 'one-blank' | 'all-blank' | 'bare';

/** `given`: shown with its sum; `hidden`: still to come, its question may tell the answer. */
export interface TutorStep {
  id: string;
  state: 'given' | 'hidden' | 'asked' | 'right' | 'wrong' | 'shown';
  ask: string | null;
  kind: 'choice' | 'direction' | 'degrees' | 'knots' | 'seconds' | 'correction' | 'hold';
  choices: { value: string; label: string }[];
  tolerance: string | null;
  given: string | null; worked: string | null; right_text: string | null;
}

export interface TutorItem {
  skill: SkillName; label: string; level: LevelName; level_words: string;
  question: string; link: string;
  /** Whether a first try now would count. */
  counts: boolean;
  steps: TutorStep[];
  /** Index of the step asked, or asked last; null in a worked example. */
  asked: number | null;
  hints: string[]; hints_left: number;
}

/** What became of the last answer, or of "show me" (`shown`, `right` null). */
export interface TutorJudged {
  readable: boolean; shown: boolean; again: boolean; right: boolean | null;
  why_unreadable: string | null; right_text: string | null; words: string[];
  student_link: string | null; right_link: string | null;
  /** null until the item is over. */
  counted: boolean | null; counted_words: string | null;
  moved: 'up' | 'down' | null; moved_words: string | null;
}

export interface TutorSkill {
  skill: SkillName; label: string; in_set: boolean;
  status: 'not-enough' | 'learning' | 'secure' | 'kept'; status_words: string;
  /** Last counted first tries, oldest first; `of` places. */
  dots: boolean[]; of: number; recent: string;
  counted: number; right: number; level: LevelName; level_words: string;
  /** Cases that have not come up yet. */
  missing: string[];
  how: string;
}

export interface TutorResult {
  right: number; of: number; score: number; low_percent: number; high_percent: number;
  words: string; skills: { skill: SkillName; label: string; right: number; of: number }[];
  tries: number; best: number; best_words: string;
  /** In the order asked; `given` is null where it was given before the page was loaded. */
  answers: (AskedItem & { number: number; given: string | null; right: boolean })[];
}

/** What an item asks, and what is right. */
export interface AskedItem {
  skill: SkillName; label: string; right_text: string;
  /** Half-width within which it is right, in its unit; null of a choice. */
  tolerance: number | null; tolerance_text: string | null;
}

export interface SheetItem extends AskedItem {
  number: number; question: string; ask: string; kind: TutorStep['kind'];
  choices: { value: string; label: string }[];
  steps: { ask: string; worked: string }[];
  link: string | null; right_link: string;
}

/** Questions for paper; without items where `problems` says why. */
export interface TutorSheet {
  set: { id: string; title: string; version: number };
  code: string | null;
  problems: Problem[];
  items: SheetItem[];
}

export interface TutorState {
  mode: 'none' | 'practice' | 'check';
  stage: 'none' | 'read' | 'ask' | 'feedback' | 'done';
  set: { id: string; title: string; version: number };
  code: string | null;
  /** Item from 1; `of` is null in practice. */
  number: number; of: number | null;
  problems: Problem[];
  can: { answer: boolean; hint: boolean; show_me: boolean; next: boolean };
  item: TutorItem | null; judged: TutorJudged | null;
  skills: TutorSkill[]; result: TutorResult | null;
}

/** Practice and check; docs/module.md "The tutor". */
export interface Tutor {
  sets(): { id: string; title: string; about: string }[];
  useSet(idOrJson: string): {
    id: string; title: string; version: number; usable: boolean; problems: Problem[];
  };
  begin(what: { mode: 'practice' | 'check'; code: string; skills?: SkillName[] }): TutorState;
  state(): TutorState;
  answer(text: string): TutorState;
  hint(): TutorState;
  showMe(): TutorState;
  next(): TutorState;
  stop(): TutorState;
  /** The first `count` (12 if not said, at most 60) items of a code; twelve are the check's. */
  sheet(what: { code: string; count?: number }): TutorSheet;
  /** Days since 1 January 1970, of the person's calendar. */
  today(day: number): void;
  newCode(number: number): string;
  progress(): string;
  takeProgress(text: string): { taken: boolean; problems: Problem[] };
  clearProgress(): void;
}

export interface Core {
  evaluate(query: string): Evaluation;
  tutor(): Tutor;
  /** `inbound`: the course set, which a published hold is held against. */
  readClearance(text: string, inbound?: string): ReadClearance;
  readWindReport(kind: string, text: string, query?: string): ReadWindReport;
  reportKinds(): ReportKind[];
  session(link?: string): Session;
  themeCss(): string;
  svg(query: string, options?: {
    width?: number; height?: number; theme?: 'light' | 'dark' | 'page'; time?: number; handles?: boolean;
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
