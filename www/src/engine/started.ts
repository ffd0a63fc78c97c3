// An engine that runs: the glue makes one of the compiled module, here and in the worker.

import type {
  Answer,
  Dealt,
  Decoded,
  Description,
  Dialect,
  EarEye,
  EarSide,
  FaultAnswer,
  FaultQuestion,
  GroundMap,
  Heard,
  HeardFile,
  InputAt,
  Lesson,
  LessonResponse,
  LookUpEntry,
  MapBackwards,
  MapWorking,
  Marked,
  Measured,
  Proposal,
  Question,
  ReadLesson,
  ReadLines,
  ReadShow,
  RowCure,
  Settings,
  Show,
  SolvedShow,
  Sought,
  StepCheck,
  Through,
  Told,
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
  lesson_read(file: unknown, settings: Settings): ReadLesson
  lesson_told(lesson: Lesson, language: string): Lesson
  lesson_deal(lesson: Lesson, seed: number): Dealt
  lesson_mark(lesson: Lesson, seed: number, step: number, response: LessonResponse, settings: Settings): Marked | null
  lesson_measure(lesson: Lesson, seed: number, step: number, reading: string, settings: Settings): Measured | null
  lesson_x(lesson: Lesson, seed: number, step: number, trial: number): EarSide | null
  lesson_eye(lesson: Lesson, seed: number, step: number, settings: Settings): EarEye | null
  lesson_check(lesson: Lesson, seed: number, settings: Settings): StepCheck[]
  fault_find(question: FaultQuestion): FaultAnswer
  listen_hear(samples: Float32Array, rate: number, through: Through): Heard
  listen_file(bytes: Uint8Array, from: number | null, through: Through): HeardFile
  listen_spectrum(samples: Float32Array, rate: number): Float32Array
  stage_read(file: unknown, settings: Settings): ReadShow
  stage_check(show: Show, settings: Settings): Told[]
  stage_solve(show: Show): SolvedShow
  stage_propose(show: Show): Proposal
  stage_cures(show: Show, line: string, settings: Settings): RowCure[]
  stage_texts(show: Show, line: string): Record<string, string>
  stage_read_lines(show: Show, text: string, dialect: Dialect, settings: Settings): ReadLines
  stage_decode(bytes: Uint8Array, settings: Settings): Decoded
  stage_write_lines(show: Show, dialect: Dialect): string
  stage_map(show: Show, sets: number, settings: Settings): GroundMap
  stage_map_working(show: Show, line: string, at: InputAt, settings: Settings): MapWorking
  stage_map_backwards(show: Show, line: string, at: InputAt): MapBackwards[]
}

export function started({ module, words }: Made): Engine {
  const engine = engineGlue()
  engine.initSync({ module })
  // The engine has the words of one language, whichever it is.
  engine.bring_words('en', words)
  return engine
}
