// qrcode.mjs is made by the build from the pinned source.
/** `version` 0: the smallest that holds the data. Data are Latin-1. */
export default function qrcode(version: number, level: 'L' | 'M' | 'Q' | 'H'): {
  addData(data: string): void;
  /** Throws where the data are too long. */
  make(): void;
  getModuleCount(): number;
  isDark(row: number, column: number): boolean;
};
