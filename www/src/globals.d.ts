// What the glue of the WebAssembly engine adds to a page and to a worker.

type EngineGlue = import('./engine/started').Engine & {
  initSync(parts: { module: WebAssembly.Module }): unknown
}

/** Each call gives one that is independent of the others. */
declare const engineGlue: () => EngineGlue

/** Styles that come with a piece of the page, as text. */
declare module '*.css' {
  const styles: string
  export default styles
}
