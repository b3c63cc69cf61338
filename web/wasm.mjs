// wasm.mjs - what the modules without Emscripten's JavaScript have in common: how they are
// fetched and started, and how texts go in and out of them (web/text_port.h).

/**
 * A file that stands beside this one, compiled while it comes where that can be.
 * @param {string} name @returns {Promise<BufferSource | WebAssembly.Module>}
 */
export async function siblingWasm(name) {
  const url = new URL(name, import.meta.url);
  if (url.protocol === 'file:' && typeof process === 'object' && process.versions?.node) {
    const { readFile } = await import('node:fs/promises');
    return readFile(url);
  }
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${name}: ${response.status} ${response.statusText}`);
  const is_typed = response.headers.get('Content-Type')?.startsWith('application/wasm');
  return is_typed ? WebAssembly.compileStreaming(response) : response.arrayBuffer();
}

/** @param {BufferSource | WebAssembly.Module} source */
export const compiled = async (source) => (source instanceof WebAssembly.Module ? source : WebAssembly.compile(source));

/**
 * Starts a module; its exports. What it calls for is not needed, or comes later: each import is a
 * stand-in that says so.
 * @param {WebAssembly.Module} module
 * @param {Record<string, string>} [lacking] Spaces of imports that come later, and what to say.
 * @returns {Promise<Record<string, any>>}
 */
export async function started(module, lacking = {}) {
  /** @type {Record<string, Record<string, () => number>>} */
  const imports = {};
  for (const { module: space, name, kind } of WebAssembly.Module.imports(module)) {
    if (kind !== 'function') continue;
    (imports[space] ??= {})[name] = () => {
      if (name === 'proc_exit') throw new Error('the core stopped');
      if (lacking[space]) throw new Error(lacking[space]);
      return 0;
    };
  }
  const instance = await WebAssembly.instantiate(module, imports);
  const wasm = /** @type {Record<string, any>} */ (instance.exports);
  wasm._initialize?.();
  return wasm;
}

/** @param {Record<string, any>} wasm */
export function textPort(wasm) {
  const encoder = new TextEncoder();
  const decoder = new TextDecoder();
  return {
    /** @param {string} text */
    give(text) {
      const bytes = encoder.encode(text);
      const at = wasm.text_in(bytes.length);
      // The buffer may be new after every call: memory grows.
      new Uint8Array(wasm.memory.buffer, at, bytes.length).set(bytes);
    },
    take: () => decoder.decode(
      new Uint8Array(wasm.memory.buffer, wasm.text_out(), wasm.text_out_size())),
  };
}
