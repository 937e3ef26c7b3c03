// The engine module as one function: a request in, a reply out (apps/wasm/engine_api.hpp).
// Plain JavaScript, since the browser's worker, the tests and the generator (bare Node) all load it.

/**
 * @param {(options?: object) => Promise<any>} factory the default export of engine.mjs
 * @param {{ wasmBinary?: Uint8Array, onStage?: (stage: string) => void }} [options] Node hands over the bytes itself
 */
export async function loadEngine(factory, options = {}) {
  const module = await factory(options);
  return {
    run(request) {
      const text = JSON.stringify(request);
      const size = module.lengthBytesUTF8(text) + 1;
      const at = module._malloc(size);
      module.stringToUTF8(text, at, size);
      const out = module._engine_run(at);
      module._free(at);
      if (!out) throw new Error('The engine has no memory left.');
      const reply = JSON.parse(module.UTF8ToString(out));
      module._engine_free(out);
      return reply;
    },
  };
}
