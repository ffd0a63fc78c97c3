// What the glue of the WebAssembly engine adds to a page and to a worker.

type EngineGlue = import('./engine/engine').Engine & {
  initSync(parts: { module: WebAssembly.Module }): unknown
}

declare const wasm_bindgen: EngineGlue
