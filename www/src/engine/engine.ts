// The engine is the core compiled to WebAssembly. On a first visit a small one,
// with a single calculator, answers until the whole one has come. Short questions
// are answered here; long ones, asked backwards or for tolerances, in a worker where
// one can be had.

import type {
  Answer,
  Description,
  LookUpEntry,
  Question,
  Settings,
  Sought,
  Translation,
} from '../../generated/contract'
import { bringEngine, startWorker, type Made } from './engine-files'
import { started, type Engine } from './started'
import { firstName, wantedEngine, WHOLE } from './wanted'

/** The engine that answers, and the one calculator that it has; nothing where it has all. */
let answering: { readonly engine: Engine; readonly only: string | null } | null = null
let compiled: Made | null = null
let coming: Promise<void> | null = null

/** Brings the engine that the address asks for; the start page asks for none. */
export async function startEngine(): Promise<void> {
  const wanted = wantedEngine()
  if (wanted === WHOLE) await wholeEngine()
  else if (wanted !== null) {
    try {
      const engine = started(await bringEngine(wanted))
      answering ??= { engine, only: wanted }
    } catch {
      // The whole one does as well.
      await wholeEngine()
    }
  }
}

/** Brings the whole engine; one that does not come may be asked for again. */
export async function wholeEngine(): Promise<void> {
  coming ??= bringEngine(WHOLE).then(made => {
    compiled = made
    answering = { engine: started(made), only: null }
    if (running === null) run()
  })
  try {
    await coming
  } catch (error) {
    coming = null
    throw error
  }
}

export function isWhole(): boolean {
  return answering?.only === null
}

/** Whether the engine that is there has this calculator, or would know that there is none. */
export function hasCalculator(calculator: string): boolean {
  return answering !== null && (isWhole() || answering.only === firstName(calculator))
}

/** What the whole engine is made of; whoever asks has seen that it is there. */
export function madeEngine(): Made {
  if (compiled === null) throw new Error('the whole engine has not come')
  return compiled
}

/** The engine; whoever asks has seen that it is there. */
export function engine(): Engine {
  if (answering === null) throw new Error('the engine has not come')
  return answering.engine
}

export function describeAll(settings: Settings): Description[] {
  return engine().describe(settings)
}

export function describe(calculator: string, settings: Settings): Description | null {
  return engine().describe_one(calculator, settings)
}

export function lookUp(settings: Settings): LookUpEntry[] {
  return engine().look_up(settings)
}

export function answer(question: Question): Answer {
  return engine().answer(question)
}

/** How to write a question for a reader with other settings. */
export function translateQuestion(question: Question, settings: Settings): Translation {
  return engine().translate(question, settings)
}

/** What a question in the reader's own words puts into the calculators. */
export function seekIn(text: string, settings: Settings): Sought {
  return engine().seek(text, settings)
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
  // They wait for the whole engine.
  if (compiled === null) return
  const kind = KINDS.find(kind => waiting.has(kind))
  running = kind === undefined ? null : (waiting.get(kind) ?? null)
  if (running === null) return
  waiting.delete(running.kind)
  if (worker === undefined) worker = makeWorker(compiled)
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

function makeWorker(engine: Made): Worker | null {
  try {
    const made = startWorker(engine)
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
