// view.mjs is made by the build from web/.
import type { ViewModule } from './types';
export default function createView(options: { canvas: HTMLCanvasElement; wasmBinary?: Uint8Array }): Promise<ViewModule>;
