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
}
