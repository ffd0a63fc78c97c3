// The engine is the core compiled to WebAssembly. Short questions are answered
// here; long ones, asked backwards or for tolerances, in a worker where one can
// be had.

import type {
  Answer,
  Description,
  LookUpEntry,
  Question,
  Settings,
  Sought,
  Translation,
} from '../../generated/contract'
import { compileEngine, startWorker } from './engine-files'

export interface Engine {
  describe(settings: Settings): Description[]
  describe_one(calculator: string, settings: Settings): Description | null
  words(settings: Settings): Record<string, string>
  look_up(settings: Settings): LookUpEntry[]
  answer(question: Question): Answer
  translate(question: Question, settings: Settings): Translation
  seek(text: string, settings: Settings): Sought
}

let engine: Engine
let compiled: WebAssembly.Module

export async function startEngine(): Promise<void> {
  compiled = await compileEngine()
  wasm_bindgen.initSync({ module: compiled })
  engine = wasm_bindgen
}

export function describeAll(settings: Settings): Description[] {
  return engine.describe(settings)
}

export function describe(calculator: string, settings: Settings): Description | null {
  return engine.describe_one(calculator, settings)
}

export function lookUp(settings: Settings): LookUpEntry[] {
  return engine.look_up(settings)
}

export function pageWords(settings: Settings): Record<string, string> {
  return engine.words(settings)
}

export function answer(question: Question): Answer {
  return engine.answer(question)
}

/** How to write a question for a reader with other settings. */
export function translateQuestion(question: Question, settings: Settings): Translation {
  return engine.translate(question, settings)
}

/** What a question in the reader's own words puts into the calculators. */
export function seekIn(text: string, settings: Settings): Sought {
  return engine.seek(text, settings)
}

type Reply = (answer: Answer) => void

/** What is asked at length; the first goes first. */
const KINDS = ['backwards', 'cures', 'tolerances'] as const
type Kind = (typeof KINDS)[number]

interface Job {
  readonly kind: Kind
  readonly question: Question
  readonly reply: Reply
}

let worker: Worker | null | undefined
let running: Job | null = null
const waiting = new Map<Kind, Job>()

/** Answers a long question; of several of a kind only the newest is answered. */
export function answerLong(kind: Kind, question: Question, reply: Reply): void {
  waiting.set(kind, { kind, question, reply })
  // A band takes seconds: nothing waits for one.
  if (running?.kind === 'tolerances') interrupt()
  if (running === null) run()
}

/** Drops the long question of a kind. */
export function dropLong(kind: Kind): void {
  waiting.delete(kind)
  if (running?.kind === kind) {
    interrupt()
    waiting.delete(kind)
    if (running === null) run()
  }
}

/** Stops the worker; what it was at waits again, unless something newer does. */
function interrupt(): void {
  if (!worker || running === null) return
  worker.terminate()
  worker = undefined
  if (!waiting.has(running.kind)) waiting.set(running.kind, running)
  running = null
}

function run(): void {
  const kind = KINDS.find(kind => waiting.has(kind))
  running = kind === undefined ? null : (waiting.get(kind) ?? null)
  if (running === null) return
  waiting.delete(running.kind)
  if (worker === undefined) worker = makeWorker()
  if (worker === null) {
    // After the frame, so that what was typed is on the screen first.
    setTimeout(() => {
      if (running !== null) finish(answer(running.question))
    })
  } else {
    worker.postMessage({ question: running.question })
  }
}

function finish(answer: Answer): void {
  running?.reply(answer)
  run()
}

function makeWorker(): Worker | null {
  try {
    const made = startWorker(compiled)
    made.onmessage = (event: MessageEvent<Answer>) => finish(event.data)
    made.onerror = () => {
      made.terminate()
      worker = null
      if (running !== null && !waiting.has(running.kind)) waiting.set(running.kind, running)
      run()
    }
    return made
  } catch {
    return null
  }
}
