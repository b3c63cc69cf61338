// view.mjs is made by the build from web/.
import type { ViewModule } from './types';
export default function createView(options: {
  canvas: HTMLCanvasElement;
  instantiateWasm(imports: WebAssembly.Imports, take: (instance: WebAssembly.Instance) => void): object;
}): Promise<ViewModule>;
