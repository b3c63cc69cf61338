// What core.mjs exports, and every field of what it answers. docs/module.md says what they mean.
// Directions are degrees magnetic, headings in (0, 360]; distances nautical miles, speeds knots,
// times seconds. `cross_nm` is + on the holding side, corrections and drift are + to the right.
// tests/browser/module.test.mjs walks real answers and fails where they differ from this.

/**
 * Loads the core. Rejects where core.wasm cannot be fetched, is no WebAssembly, or is of another
 * build than core.mjs. `wasm`: the module or its bytes, where the file is not beside core.mjs;
 * `more`: the same of core-more.wasm, where the core is in two parts. `first`: only the first part
 * of such a core, the rest when more() is called.
 */
export function load(options?: {
  wasm?: BufferSource | WebAssembly.Module;
  more?: BufferSource | WebAssembly.Module;
  first?: boolean;
}): Promise<Core>;

export interface Core {
  /** Answers any text; never throws for what is in it. */
  evaluate(query: string): Evaluation;
  /** The picture as SVG text, in CSS pixels; `time`: with the aircraft, seconds from the fix; `handles`: to be taken hold of, unless false. */
  svg(query: string, options?: { width?: number; height?: number; theme?: PaperTheme; time?: number; handles?: boolean }): string;
  /** Style rules for that picture inside an element of class `picture`. */
  themeCss(): string;
  /** `inbound`: the course on the chart, which a published hold is held against. */
  readClearance(text: string, inbound?: string): ReadClearance;
  readWindReport(kind: string, text: string, query?: string): ReadWindReport;
  reportKinds(): ReportKind[];
  /**
   * The second part of a core that was loaded with `first`: until then what it answers throws, and
   * reports end after `fix_missed`. Nothing is left to do where the core is whole.
   */
  more(): Promise<void>;
  /** One for each core; it serves the page and changes with it. */
  session(link?: string): Session;
  /** One for each core. */
  tutor(): Tutor;
}

/** `page`: light paints; the rest is the style sheet's. */
export type PaperTheme = 'light' | 'dark' | 'contrast_light' | 'contrast_dark' | 'page';

export interface Problem { key: string; message: string }

export type Book = 'faa' | 'icao';
export type Side = 'left' | 'right';
export type EntryKind = 'offset' | 'parallel' | 'direct';
export type EndedBy = 'time' | 'distance' | 'dme' | 'radial';

/** Every key of the query: a number where its text is one number, `null` where it is absent. */
export interface ScenarioValues {
  inbound: number; turns: Side; leg: string | null;
  altitude: number; ias: number | null; tas: number | null; isa: number; bank: number;
  wind: string; windref: 'magnetic' | 'true'; variation: string;
  arrive: number; entry: 'auto' | EntryKind; heading: number | null;
  rule: RuleName; time: string | null;
  timing: 'fixed' | 'groundspeed'; timer: 'fix' | 'level';
  multiple: number | 'exact'; intercept: number; laps: number;
  adjust: 'seconds' | 'ratio' | 'exact' | 'keep';
  book: Book; parallel: 'course' | 'fix';
  fix: string | number | null; efc: string | null;
  station: string; elevation: number; aid: 'vor' | 'ndb' | 'satellite';
  scale: NeedleScale | null; measure: 'track' | 'dme'; radial: number | null;
  limit: string | number | null; roll: number; later: string | null;
  saw: number | null; took: string | null; held: string | null;
}

export type RuleName = 'still-air' | 'drift-once' | 'track-30' | 'drift-triple';
export type NeedleScale = 'vor' | 'terminal' | 'en-route' | 'older';

/** Turns at the present altitude, speed and bank, in still air. */
export interface Air {
  tas_kt: number; ias_kt: number; bank_deg: number; turn_rate_deg_s: number; turn_radius_nm: number;
}

/** What it takes to make good a course. */
export interface Triangle { wca_deg: number; heading_deg: number; groundspeed_kt: number }

export interface Entry {
  kind: EntryKind;
  /** Empty where the arrival cannot be flown. */
  acceptable: EntryKind[];
  rule_heading_deg: number | null; heading_deg: number | null; time_s: number | null;
  turn: Side; first_turn: Side | null;
  ended_by: EndedBy | null;
}

/** At wings level; `inbound_s`: to go at the inbound groundspeed. */
export interface Rollout { cross_nm: number; to_go_nm: number; inbound_s: number; at_s: number }

/** Where there is none, `why` says so and the numbers are `null`. */
export interface ExactPlan { exists: boolean; heading_deg: number | null; time_s: number | null; why: string | null }

export interface ExactPlans {
  heading_for_time: ExactPlan; heading_and_time: ExactPlan; time_for_heading: ExactPlan;
  lap: ExactPlan & { straight_s: number | null };
}

export interface Lap {
  outbound_heading_deg: number;
  /** Off the outbound course. */
  correction_deg: number; wca_deg: number;
  outbound_s: number;
  cross_nm: number; to_go_nm: number; inbound_s: number;
  ended_by: EndedBy; end_dme_nm: number; advice: string;
}

/** `label` in words; `mark` is the short form that stands at the track. */
export interface FlightEvent {
  name: EventName; label: string; mark: string;
  /** 0: the entry. */
  lap: number;
  at_s: number; x_nm: number; y_nm: number; heading_deg: number;
}

export type EventName = 'arrival' | 'fix' | 'level' | 'abeam' | 'time-up' | 'roll-out' | 'intercept' |
  'on-course' | 'fix-missed';

export interface PlanRow {
  id: PlanName; name: string;
  /** Whose line this plan has in the picture; '' where it is not drawn. */
  role: 'no-correction' | 'rule' | 'exact' | 'flown' | '';
  exists: boolean; flown: boolean;
  heading_deg: number | null; time_s: number | null;
  cross_nm: number | null; to_go_nm: number | null; inbound_s: number | null;
  why: string | null;
}

export type PlanName = RuleName | 'exact' | 'exact-heading' | 'exact-time' | 'own';

/** One of the three entries; where it cannot be flown `why` says so. */
export interface EntryRow {
  kind: EntryKind;
  /** By the book in use. */
  label: string;
  acceptable: boolean; in_sector: boolean; flown: boolean;
  heading_deg: number | null; time_s: number | null;
  first_turn: Side | null; first_turn_deg: number | null;
  turn: Side | null; turn_deg: number | null;
  rollout: Rollout | null;
  on_course_s: number | null; fix_again_s: number | null; fix_missed: boolean;
  exact: ExactPlan;
  why: string | null;
  steps: string[];
}

export interface StationReport {
  place: 'fix' | 'ahead' | 'behind';
  ground_nm: number; height_ft: number; fix_dme_nm: number; end_dme_nm: number | null;
  words: string[];
}

/** What a rate of roll changes; the changes are of the entry's roll-out. */
export interface Roll {
  deg_s: number; compared_deg_s: number; roll_s: number;
  cross_change_nm: number | null; to_go_change_nm: number | null; words: string;
}

export interface SpeedRow {
  above_ft: number | null; up_to_ft: number | null; ias_kt: number | null; mach: number | null; now: boolean;
}

export interface Limits {
  rule: string; label: string; speed_kt: number | null; mach: number | null; ias_kt: number;
  margin_kt: number | null; within: boolean; words: string;
  slow_down: { distance_nm: number; before_fix_s: number; words: string } | null;
  rate: {
    limited: boolean; turn_rate_deg_s: number; standard_bank_deg: number; crossover_tas_kt: number; words: string;
  };
  tables: { rule: string; book: Book; label: string; rows: SpeedRow[] }[];
  exceptions: string[];
  bank_words: string;
}

export interface Displays {
  aid: ScenarioValues['aid'];
  scale: 'vor' | 'satellite-terminal' | 'satellite-en-route' | 'satellite-older';
  scale_label: string; cone_nm: number; cone_words: string;
  moments: {
    name: 'shows-from' | 'shows-to' | 'wingtip' | 'cone-enters' | 'cone-leaves'; label: string; at_s: number;
  }[];
  words: string;
}

/** Indicative, not for navigation or procedure design: `caption` stands by every drawing of it. */
export interface Area {
  exists: boolean; caption: string; why: string | null; words: string;
  inside: { basic_nm: number; entry_nm: number; buffer_nm: number } | null;
  inside_words: string; faa_wind_words: string;
}

/** Winds that explain what was seen; ± is one standard deviation, `null`: not bounded. */
export interface Inferred {
  determined: boolean; why: string | null; code: string; seen: string;
  winds: {
    from_deg: number; speed_kt: number; from_pm_deg: number | null; speed_pm_kt: number | null;
    major_kt: number | null; minor_kt: number | null; major_deg: number | null; misfit: number;
  }[];
  tells: string[]; advice: string[];
  next: { heading_deg: number; time_s: number } | null;
}

export interface Multiples {
  inbound_wca_deg: number; exact: number | null; why: string | null;
  rows: {
    multiple: number | null; label: string; heading_deg: number | null; outbound_s: number | null;
    cross_nm: number | null; why: string | null;
  }[];
  words: string[];
  by_wind: {
    from_deg: number; speed_kt: number; exact: number | null;
    triple_cross_nm: number | null; once_cross_nm: number | null;
  }[];
}

/** A rule of thumb beside the exact plan: common practice, no source, unless `says` names one. */
export interface Practice {
  id: string; title: string; says: string; today: string; exact: string; good: boolean; words: string;
}

export interface Evaluation {
  scenario: ScenarioValues;
  problems: Problem[];
  air: Air;
  wind: Record<'arrival' | 'inbound' | 'outbound', Triangle | null>;
  entry: Entry;
  rollout: Rollout | null;
  exact: ExactPlans;
  laps: Lap[];
  /** When the clock of a lap starts today. */
  timing: string;
  events: FlightEvent[];
  link: string;
  /** Every key that has a value, as canonical text. */
  fields: Record<string, string>;
  plans: PlanRow[];
  sum: string[];
  headline: string;
  outcome: string;
  summary: string;
  sector: string;
  published_s: number;
  fix_missed: boolean;
  clearance: { text: string; spoken: string; published: string; steps: string[] };
  book: { id: Book; label: string; words: string[] };
  entries: EntryRow[];
  sector_boundary_deg: number | null;
  station: StationReport;
  roll: Roll;
  wind_model: string[];
  limits: Limits;
  displays: Displays;
  /** `null` in a session's report unless the layer is on. */
  area: Area | null;
  inferred: Inferred | null;
  multiples: Multiples | null;
  practice: Practice[];
}

/** A hold clearance as it was read; `link` has the keys that it determines. */
export interface ReadClearance {
  heard: {
    hold: boolean; published: boolean;
    direction: string | null; fix: string | null; reference: string | null; sense: string | null;
    number_deg: number | null; inbound_said_deg: number | null; station: string | null; route: string | null;
    dme_nm: number | null; leg_s: number | null; leg_nm: number | null; turns: Side | null;
    efc: string | null; now: string | null; max_ias_kt: number | null; aid: string | null;
  };
  inbound_deg: number | null; turns: Side | null; leg_s: number | null; leg_nm: number | null;
  station: StationReport['place'] | null;
  outbound_end_dme_nm: number | null; efc: string | null;
  steps: string[]; contradictions: string[]; problems: string[]; unread: string[];
  link: string;
}

/** A kind of wind report and what its direction refers to. */
export interface ReportKind {
  kind: string; label: string; ref: 'true' | 'magnetic';
  where: string; why: string; rule: string; source: string; mark: string;
}

export interface WindPeriod {
  label: string; from_deg: number | null; speed_kt: number; gust_kt: number | null; link: string;
}

/** A wind report as it was read; `from_deg` as reported. */
export interface ReadWindReport {
  kind: string | null; label: string | null;
  from_deg: number | null; speed_kt: number | null; gust_kt: number | null;
  ref: 'true' | 'magnetic' | null; magnetic_deg: number | null;
  light_and_variable: boolean;
  /** 199 kt or more. */
  at_least: boolean;
  temperature_c: number | null; isa_c: number | null;
  why: string | null;
  steps: string[]; problems: string[]; periods: WindPeriod[];
  /** What the model leaves out. */
  limit: string;
  link: string;
}

/** One bit each: 1 scenario (report, link), 2 picture, 4 clock (time or playing). */
export type ChangeMask = number;

/** What the navigation displays show at a moment. */
export interface Needle {
  /** Share of full scale, −1 to 1, + right. */
  deflection: number; dots: number; flag: 'to' | 'from' | 'none';
  reversed: boolean; reliable: boolean;
  course_deg: number; heading_deg: number;
  bearing_deg: number | null; relative_deg: number | null; bearing_reliable: boolean;
  dme_nm: number | null; ground_nm: number;
  words: string;
}

export interface Live {
  /** Worked out when it is read; a copy of the object does not have it. */
  readonly needle: Needle;
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
  /** Fixes keys at what `link` gives them, for the person's own scene; none: all are free. */
  lock(keys: string[], link: string): ChangeMask;
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
  /** What the picture has besides the scene and its flight (Evaluation.summary): layers, laps, a second flight. */
  pictureWords(): string;
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
