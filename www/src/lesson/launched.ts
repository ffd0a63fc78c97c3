// A lesson that a learning system opened: it waits for what an earlier attempt left, and
// tells what is answered to the page around it.

import { useEffect, useRef, useState } from 'preact/hooks'
import { VERSION, isReadable, type FromLesson, type ToLesson } from '../../launch/messages'
import { lessonState, useLesson, type LessonState } from './lesson-state'
import { keepRun } from './runs'
import { attemptOf, readKept, type Given } from './attempt'

export interface Launched {
  /** Whether a learning system opened the lesson. */
  readonly is: boolean
  /** Whether it has said what an earlier attempt left, or has kept silent too long. */
  readonly isHere: boolean
  /** The attempt that is gone on with, by its seed. */
  readonly seed: number | null
  /** Whether what is done counts there. */
  readonly counts: boolean
  /** What it did not take, in its words; nothing where it took all. */
  readonly refused: string | null
}

/** So long it may take to begin, in milliseconds. */
const PATIENCE = 15_000
const isLaunched = window.parent !== window && /[?&]launched(&|$)/.test(location.hash)
const NOT_YET: Launched = { is: isLaunched, isHere: !isLaunched, seed: null, counts: false, refused: null }

export function useLaunched(): Launched {
  const [launched, setLaunched] = useState(NOT_YET)
  const given = useRef<readonly Given[]>([])
  useEffect(() => {
    if (!isLaunched) return
    const change = (part: Partial<Launched>) => setLaunched(before => ({ ...before, ...part }))
    const hear = async ({ source, data }: MessageEvent<ToLesson>) => {
      if (source !== window.parent || !isReadable(data, 'stageohm:launch')) return
      if (data.what === 'kept') return change({ refused: data.taken ? null : data.why })
      const kept = await readKept(data.kept)
      if (kept !== null) {
        given.current = kept.given
        keepRun({ ...kept, committed: kept.responses.map(one => one !== null) })
      }
      change({ isHere: true, seed: kept?.seed ?? null, counts: data.counts })
    }
    const heard = (event: MessageEvent<ToLesson>) => void hear(event)
    addEventListener('message', heard)
    const late = setTimeout(() => change({ isHere: true }), PATIENCE)
    tell({ type: 'stageohm:lesson', version: VERSION, what: 'ready' })
    return () => {
      removeEventListener('message', heard)
      clearTimeout(late)
    }
  }, [])
  useTelling(launched.counts, given)
  return launched
}

/** Tells what was answered, and how far the learner is, whenever that is new. */
function useTelling(counts: boolean, given: { current: readonly Given[] }): void {
  const opened = useRef(0)
  const told = useRef<Pick<LessonState, 'marked' | 'step'> | null>(null)
  const state = useLesson(state => state)
  const step = state?.step ?? 0
  useEffect(() => {
    opened.current = Date.now()
  }, [step])
  useEffect(() => {
    if (!counts || state === null) return
    if (told.current?.marked === state.marked && told.current.step === state.step) return
    told.current = state
    given.current = withNew(state, given.current, opened.current)
    void attemptOf(state, given.current).then(attempt => {
      // What was answered meanwhile comes next.
      if (lessonState()?.marked !== state.marked) return
      tell({ type: 'stageohm:lesson', version: VERSION, what: 'attempt', attempt })
    })
  }, [state, counts, given])
}

/** The answers in the order in which they were given. */
function withNew({ marked }: LessonState, given: readonly Given[], opened: number): readonly Given[] {
  const now = Date.now()
  const committed = marked.flatMap((one, step) => (one === null ? [] : [step]))
  const added = committed.filter(step => given.every(one => one.step !== step))
  return [
    ...given.filter(({ step }) => committed.includes(step)),
    ...added.map(step => ({ step, took: now - opened, at: now })),
  ]
}

function tell(message: FromLesson): void {
  // Whose page this is cannot be known; it was opened by the learner's own system.
  window.parent.postMessage(message, '*')
}
