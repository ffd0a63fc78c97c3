// Answers long questions beside the page. The first message brings the compiled
// engine, each later one a question.

import type { Question } from '../../generated/contract'

type Message =
  | {
      readonly module: WebAssembly.Module
      /** Nothing where the glue is in this very script. */
      readonly glue: string | null
    }
  | { readonly question: Question }

declare function importScripts(url: string): void

addEventListener('message', ({ data }: MessageEvent<Message>) => {
  if ('module' in data) {
    if (data.glue !== null) importScripts(data.glue)
    wasm_bindgen.initSync({ module: data.module })
  } else {
    postMessage(wasm_bindgen.answer(data.question))
  }
})
