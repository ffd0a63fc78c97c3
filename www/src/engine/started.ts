// An engine that runs: the glue makes one of the compiled module, here and in the worker.

import type {
  Answer,
  Description,
  LookUpEntry,
  Question,
  Settings,
  Sought,
  Translation,
} from '../../generated/contract'
import type { Made } from './engine-files'

export interface Engine {
  bring_words(language: Settings['language'], text: string): boolean
  describe(settings: Settings): Description[]
  describe_one(calculator: string, settings: Settings): Description | null
  look_up(settings: Settings): LookUpEntry[]
  answer(question: Question): Answer
  translate(question: Question, settings: Settings): Translation
  seek(text: string, settings: Settings): Sought
}

export function started({ module, words }: Made): Engine {
  const engine = engineGlue()
  engine.initSync({ module })
  engine.bring_words('en', words)
  return engine
}
