// core.mjs is made by the build from web/.
import type { Core } from './types';
export function load(options?: { wasm?: BufferSource | WebAssembly.Module }): Promise<Core>;
