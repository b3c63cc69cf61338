// What study.mjs exports. Units and signs as in core.d.mts; winds are magnetic, from.

/** Whether WebAssembly's SIMD is there. */
export function hasSimd(): boolean;

/**
 * Loads study-simd.wasm, or study.wasm where there is no SIMD (or `simd` is false): the same
 * numbers, a little slower. Rejects as core.mjs's load() does.
 */
export function load(options?: { wasm?: BufferSource | WebAssembly.Module; simd?: boolean }): Promise<Study>;

export type Mapped = 'miss' | 'inbound' | 'intercept' | 'multiple' | 'laps';
export type MapPlan = 'still-air' | 'drift-once' | 'track-30' | 'drift-triple' | 'own' | 'best';
export type MapTheme = 'light' | 'dark' | 'contrast_light' | 'contrast_dark';

/** What is mapped, by whose plan; `less`, with `miss` alone: how much farther it misses than that one. */
export interface MapChoice {
  mapped?: Mapped; plan?: MapPlan; less?: MapPlan | null;
  /** The strongest wind, 1 to 150 kt. */
  most_kt?: number;
  tolerance_nm?: number;
  /** The finest grid has so many times 360 directions and 60 steps of speed: 1 to 4. */
  finest?: number;
}

export interface MapInfo {
  mapped: Mapped; plan: MapPlan; less: MapPlan | null;
  most_kt: number; tolerance_nm: number;
  /** Of the finest grid that is whole; 0 while none is. */
  directions: number; speeds: number;
  /** Share of winds with a value in `range`, every direction and speed equally likely. */
  share: number; range: [number | null, number];
  /** Value in the middle of the colour scale, and how far it goes either way. */
  middle: number; reach: number;
  /** How far the values lie from the middle, of the winds that have one. */
  spread: { mean: number | null; median: number | null; ninety_five: number | null; most: number | null };
  levels: number[];
  /** With the best rule: the share of winds of each rule; else empty. */
  rules: number[];
  /** The scene's own wind; `value` null where there is none. */
  wind: { from_deg: number; speed_kt: number; value: number | null };
}

export interface Study {
  /** The scene that all else is about: the text of a link. Call map.begin() after it. */
  scene(query: string): void;
  map: {
    begin(choice: MapChoice): void;
    /** Works out about so many winds more; true where nothing is left. Coarse maps come first. */
    work(winds: number): boolean;
    /**
     * RGBA pixels of the finest map that is whole, null while there is none: a disc, north up,
     * each wind at the direction it blows from. A view of memory that the next call may move: copy it.
     */
    image(size_px: number, theme?: MapTheme): Uint8ClampedArray | null;
    /** Contour lines: level, 1 where closed, count of points, then x (east) and y (north), kt. A view of memory, as above. */
    lines(): Float32Array;
    value(from_deg: number, kt: number): number | null;
    info(): MapInfo;
    /** Colours of the scale, from one reach below its middle to one above, and of the rules. */
    colours(theme?: MapTheme): { scale: string[]; rules: string[] };
  };
  /** The scene's own plan flown many times, each a little otherwise than planned. */
  cloud: {
    unknowns(): { name: Unknown; usual: number; widest: number }[];
    /** A new cloud: nothing is flown yet. A spread is the half-width that holds 19 of 20. The same seed has the same flights. */
    begin(spread: Record<Unknown, number>, seed: number): void;
    /** Flies so many more, to 100,000 in all. */
    fly(count: number): void;
    /** What the shares of variance need of so many flights more: eight for each. */
    share(count: number): void;
    info(tolerance_nm: number): CloudInfo;
    /**
     * RGBA pixels of the view (centre NM): roll-outs by density in one ink, under them the tracks
     * of the first `count` flights (at most 500) in another; inks 0xRRGGBB. A view of memory, as above.
     */
    image(view: { centre_x: number; centre_y: number; px_per_nm: number; width_px: number; height_px: number },
      ink: { rollouts: number; tracks: number; count: number }): Uint8ClampedArray | null;
    /** Outlines of the areas that hold half and 95 % of the roll-outs: share, 1, count of points, then x and y, NM. */
    lines(): Float32Array;
  };
  /** How far off the rules are over many winds, arrivals and speeds, whatever the scene: takes a second or so. */
  rules(): RuleStudy;
  /** What one thing at a time does to the roll-out. */
  sensitivity(): SensitivityCard;
}

export type Unknown = 'wind-from' | 'wind-speed' | 'heading' | 'clock' | 'speed' | 'turn-start';

/** Another entry; a leg that ends at a place; a wind that changes; a course that cannot be held; a rule without an answer. */
export type NoCloud = 'not-offset' | 'not-by-clock' | 'wind-changes' | 'no-arrival' | 'no-inbound' | 'no-plan';

export interface CloudSpread { mean: number | null; sd: number | null; low: number | null; middle: number | null; high: number | null }
export interface CloudShares {
  /** Flights that the shares were made of. */
  flights: number;
  /** The greatest first; a share of 1, give or take holds 19 of 20. */
  rows: { unknown: Unknown; share: number; give_or_take: number }[];
  /** What they do only with each other. */
  together: number; together_give_or_take: number;
}
export interface CloudInfo {
  /** Why there is no cloud. */
  why: NoCloud | null;
  drawn: number; flown: number; tolerance_nm: number;
  /** Of those drawn: off course by no more than the tolerance. */
  inside_share: number;
  cross_nm: CloudSpread; inbound_s: CloudSpread;
  /** null until share() was called, and where nothing varies. */
  cross_shares: CloudShares | null; inbound_shares: CloudShares | null;
}

/** Less the flight as planned. */
export interface Effect { cross_nm: number | null; inbound_s: number | null }
export interface SensitivityCard {
  /** Why there is none; then the rest is null. */
  why: NoCloud | null;
  planned: { cross_nm: number; inbound_s: number } | null;
  rows: { unknown: Unknown; amount: number; more: Effect; less: Effect }[] | null;
}

export interface RuleScore {
  /** Off the outbound course toward the holding side, corrected `times` by that wind correction; or the lean made good as a track. */
  lean_deg: number; times: number; of: 'arrival' | 'inbound'; makes_track: boolean;
  timing: 'fixed' | 'groundspeed';
  flown: number; mean_nm: number; ninety_five_nm: number; quarter_share: number; half_share: number;
  inbound_off_s: number;
}
export interface RuleStudy {
  most_kt: number; directions: number; arrivals: number; tas_kt: number[];
  /** The four rules of thumb with the fixed time, then by groundspeed. */
  book: RuleScore[];
  /** The best of each kind of simple rule, simplest first. */
  simple: RuleScore[];
  /** The first of `simple` that misses less on average than all of `book`; -1: none. */
  better: number;
}
