// The stage is solved in a worker of its own, which keeps the rows that it has solved;
// where none can be had, on the page itself.

import { engine, madeEngine } from './engine'
import { startWorker } from './engine-files'
import type { StageAsk, StageCall, StageReply } from './stage-call'
import type { Engine } from './started'

interface Waiting {
  readonly asked: StageCall
  readonly done: (result: unknown) => void
  readonly failed: (error: Error) => void
}

let worker: Worker | null | undefined
let count = 0
const waiting = new Map<number, Waiting>()

/** Asks the stage; what is asked first is answered first. */
export function askStage<Ask extends StageAsk>(
  call: Ask,
  ...given: Parameters<Engine[Ask]>
): Promise<ReturnType<Engine[Ask]>> {
  return new Promise((done, failed) => {
    const asked = { call, given, number: count++ }
    waiting.set(asked.number, { asked, done: result => done(result as ReturnType<Engine[Ask]>), failed })
    if (worker === undefined) worker = makeWorker()
    if (worker === null) setTimeout(() => answerHere(asked))
    else worker.postMessage(asked, handedOver(asked))
  })
}

/** Samples of a sound are handed over and not copied: there are many of them, and often. */
function handedOver({ call, given }: StageCall): Transferable[] {
  if (!call.startsWith('listen_')) return []
  return given.flatMap(it => (it instanceof Float32Array || it instanceof Uint8Array ? [it.buffer as ArrayBuffer] : []))
}

function makeWorker(): Worker | null {
  try {
    const made = startWorker(madeEngine())
    made.onmessage = ({ data }: MessageEvent<StageReply>) => finish(data)
    made.onerror = () => {
      made.terminate()
      worker = null
      for (const { asked } of waiting.values()) answerHere(asked)
    }
    return made
  } catch {
    return null
  }
}

function answerHere({ call, given, number }: StageCall): void {
  try {
    const ask = engine()[call] as (...given: readonly unknown[]) => unknown
    finish({ number, result: ask(...given) })
  } catch (error) {
    finish({ number, error: String(error) })
  }
}

function finish(reply: StageReply): void {
  const one = waiting.get(reply.number)
  waiting.delete(reply.number)
  if ('error' in reply) one?.failed(new Error(reply.error))
  else one?.done(reply.result)
}
