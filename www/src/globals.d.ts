// What the glue of the WebAssembly engine adds to a page and to a worker.

interface EngineGlue {
  initSync(parts: { module: WebAssembly.Module }): unknown
  describe(settings: import('../generated/contract').Settings): import('../generated/contract').Description[]
  describe_one(
    calculator: string,
    settings: import('../generated/contract').Settings,
  ): import('../generated/contract').Description | null
  look_up(settings: import('../generated/contract').Settings): import('../generated/contract').LookUpEntry[]
  words(settings: import('../generated/contract').Settings): Record<string, string>
  answer(question: import('../generated/contract').Question): import('../generated/contract').Answer
}

declare const wasm_bindgen: EngineGlue
