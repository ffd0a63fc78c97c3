// Answers long questions beside the page. The first message brings the compiled
// engine with its words, each later one a question, or what is asked of the stage.

import type { Question } from '../../generated/contract'
import type { Made } from './engine-files'
import type { StageCall, StageReply } from './stage-call'
import { started, type Engine } from './started'

type Message =
  | (Made & {
      /** Nothing where the glue is in this very script. */
      readonly glue: string | null
    })
  | { readonly question: Question }
  | StageCall

declare function importScripts(url: string): void

let engine: Engine

addEventListener('message', ({ data }: MessageEvent<Message>) => {
  if ('module' in data) {
    if (data.glue !== null) importScripts(data.glue)
    engine = started(data)
  } else if ('call' in data) {
    postMessage(called(data))
  } else {
    postMessage(engine.answer(data.question))
  }
})

function called({ call, given, number }: StageCall): StageReply {
  try {
    const ask = engine[call] as (...given: readonly unknown[]) => unknown
    return { number, result: ask.apply(engine, [...given]) }
  } catch (error) {
    return { number, error: String(error) }
  }
}
