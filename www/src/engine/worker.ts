// Answers long questions beside the page. The first message brings the compiled
// engine with its words, each later one a question.

import type { Question } from '../../generated/contract'
import type { Made } from './engine-files'
import { started, type Engine } from './started'

type Message =
  | (Made & {
      /** Nothing where the glue is in this very script. */
      readonly glue: string | null
    })
  | { readonly question: Question }

declare function importScripts(url: string): void

let engine: Engine

addEventListener('message', ({ data }: MessageEvent<Message>) => {
  if ('module' in data) {
    if (data.glue !== null) importScripts(data.glue)
    engine = started(data)
  } else {
    postMessage(engine.answer(data.question))
  }
})
