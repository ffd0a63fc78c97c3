// The engine is the core compiled to WebAssembly. Short questions are answered
// here; long ones, asked backwards, in a worker where one can be had.

import type { Answer, Description, LookUpEntry, Question, Settings } from '../generated/contract'
import { compileEngine, startWorker } from './engine-files'

export interface Engine {
  describe(settings: Settings): Description[]
  words(settings: Settings): Record<string, string>
  look_up(settings: Settings): LookUpEntry[]
  answer(question: Question): Answer
}

let engine: Engine
let compiled: WebAssembly.Module

export async function startEngine(): Promise<void> {
  compiled = await compileEngine()
  wasm_bindgen.initSync({ module: compiled })
  engine = wasm_bindgen
}

export function describe(settings: Settings): Description[] {
  return engine.describe(settings)
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

type Reply = (answer: Answer) => void

let worker: Worker | null | undefined
let running: { question: Question; reply: Reply } | null = null
let next: { question: Question; reply: Reply } | null = null

/** Answers a long question; of several that wait only the newest is answered. */
export function answerLong(question: Question, reply: Reply): void {
  next = { question, reply }
  if (running === null) run()
}

function run(): void {
  running = next
  next = null
  if (running === null) return
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
      next ??= running
      run()
    }
    return made
  } catch {
    return null
  }
}
