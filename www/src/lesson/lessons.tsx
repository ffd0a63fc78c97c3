import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import { ByHand } from '../base/by-hand'
import { say } from '../base/words'
import { writeLesson } from '../screen/link'
import { getState, isEmbedded, useStore } from '../screen/store'
import { COLLECT, readLessonAddress, type LessonAddress } from './address'
import { gone, lessonState, markAgain, useLesson } from './lesson-state'
import { LessonList } from './list'
import { open, type Refused } from './opening'
import { LaunchedNotice } from './launched-notice'
import { useLaunched } from './launched'
import { Player } from './player'
import { addressed, collected, viewOf } from './views'

/** The lessons that there are, or the one that the address has. */
export function Lessons({ rest }: { readonly rest: string }) {
  const address = useMemo(() => readLessonAddress(rest), [rest])
  const launched = useLaunched()
  const { what, result = '' } = address
  if (what === COLLECT || result !== '') return <>{collected(result)}</>
  const own = addressed(address)
  if (own !== null) return <>{own}</>
  if (what === '') return <LessonList />
  if (!launched.isHere) return <Opening />
  return (
    <>
      {launched.is && <LaunchedNotice launched={launched} />}
      <Opened address={{ ...address, seed: address.seed ?? launched.seed }} />
    </>
  )
}

/** A lesson, once it is open. */
function Opened({ address }: { readonly address: LessonAddress }) {
  const { what, seed, step, view } = address
  const newest = useRef(step)
  newest.current = step
  const isOpen = useLesson(state => isOf(state, what, seed))
  const [refused, setRefused] = useState<Refused | null>(null)
  useEffect(() => {
    setRefused(null)
    if (isOf(lessonState(), what, seed)) return
    let isNewest = true
    const failed = (error: unknown): Refused => ({ why: say('lesson-failed', { why: String(error) }), text: what })
    open({ what, seed, step: newest.current, view: '' }).then(
      refused => isNewest && setRefused(refused),
      (error: unknown) => isNewest && setRefused(failed(error)),
    )
    return () => {
      isNewest = false
    }
  }, [what, seed])
  useEffect(() => {
    if (step !== null && isOf(lessonState(), what, seed)) gone(step - 1)
  }, [what, seed, step])
  useMarks()
  if (refused !== null) return <NotOpened refused={refused} />
  if (!isOpen) return <Opening />
  const View = viewOf(view)
  return View === undefined ? <Player /> : <Live View={View} />
}

function Opening() {
  return (
    <article class="lesson">
      <h1 tabIndex={-1}>{say('learn')}</h1>
      <p role="status">{say('lesson-opening')}</p>
    </article>
  )
}

/** Another way to show the open lesson. */
function Live({ View }: { readonly View: NonNullable<ReturnType<typeof viewOf>> }) {
  const state = useLesson(state => state)
  return state === null ? null : <View state={state} />
}

function isOf(state: ReturnType<typeof lessonState>, what: string, seed: number | null): boolean {
  return state !== null && state.what === what && (seed === null || state.seed === seed)
}

/** What is said of responses follows the reader's settings. */
function useMarks(): void {
  const settings = useStore(state => state.settings)
  const [told] = useState({ settings })
  useEffect(() => {
    if (told.settings === settings) return
    told.settings = settings
    void markAgain()
  }, [settings, told])
}

function NotOpened({ refused: { why, text } }: { readonly refused: Refused }) {
  return (
    <article class="lesson">
      <h1 tabIndex={-1}>{say('lesson-not-opened')}</h1>
      <div class="notice" role="alert">
        <p>{why}</p>
        {text !== '' && <ByHand text={text} why={say('lesson-text-kept')} />}
      </div>
      {!isEmbedded(getState()) && (
        <p>
          <a class="chip" href={writeLesson()}>
            {say('lesson-all')}
          </a>
        </p>
      )}
    </article>
  )
}
