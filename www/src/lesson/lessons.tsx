import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import { ByHand } from '../base/by-hand'
import { say } from '../base/words'
import { writeLesson } from '../screen/link'
import { getState, isEmbedded, useStore } from '../screen/store'
import { COLLECT, FILE, readLessonAddress, type LessonAddress } from './address'
import { gone, lessonState, markAgain, useLesson } from './lesson-state'
import { LessonList } from './list'
import { open, type Refused } from './opening'
import { LaunchedNotice } from './launched-notice'
import { useLaunch, useLaunched } from './launched'
import { Player } from './player'
import { Taught, type Teach } from './taught'
import { ToldOfOpening } from './told-of-opening'
import { WayBack } from './way-back'

/** The lessons that there are, or the one that the address has. */
export function Lessons({ rest }: { readonly rest: string }) {
  const address = useMemo(() => readLessonAddress(rest), [rest])
  useLaunch()
  const launched = useLaunched()
  const { what, result = '' } = address
  if (what === COLLECT || result !== '') return <Taught show={({ Collect }) => <Collect result={result} />} />
  if (address.view === 'edit') return <Taught show={({ Editor }) => <Editor address={address} />} />
  if (what === '') return <LessonList />
  if (!launched.isHere) return <Opening />
  return (
    <>
      {launched.is && <LaunchedNotice />}
      {launched.system !== 'counts' && address.view === '' && <ToldOfOpening what={what} />}
      <Opened address={{ ...address, seed: address.seed ?? launched.run?.seed ?? null }} />
      {launched.wayBack && <WayBack />}
    </>
  )
}

/** A lesson, once it is open. */
function Opened({ address }: { readonly address: LessonAddress }) {
  const { what, seed, step, view, odd = '' } = address
  const newest = useRef(step)
  newest.current = step
  const isOpen = useLesson(state => isOf(state, what, seed, odd))
  const [refused, setRefused] = useState<Refused | null>(null)
  useEffect(() => {
    setRefused(null)
    if (isOf(lessonState(), what, seed, odd)) return
    let isNewest = true
    const failed = (error: unknown): Refused => ({ why: say('lesson-failed', { why: String(error) }), text: what })
    open({ what, seed, step: newest.current, view: '', odd }).then(
      refused => isNewest && setRefused(refused),
      (error: unknown) => isNewest && setRefused(failed(error)),
    )
    return () => {
      isNewest = false
    }
  }, [what, seed, odd])
  useEffect(() => {
    if (step !== null && isOf(lessonState(), what, seed, odd)) gone(step - 1)
  }, [what, seed, odd, step])
  useMarks()
  if (refused !== null) return <NotOpened refused={refused} />
  if (!isOpen) return <Opening />
  return view === '' ? <Player /> : <Live view={view} />
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
function Live({ view }: { readonly view: string }) {
  const state = useLesson(state => state)
  if (state === null) return null
  const shown = ({ opened }: Teach) => {
    const View = Object.hasOwn(opened, view) ? opened[view] : undefined
    return View === undefined ? <Player /> : <View state={state} />
  }
  return <Taught show={shown} />
}

function isOf(state: ReturnType<typeof lessonState>, what: string, seed: number | null, odd: string): boolean {
  if (state === null || state.what !== what) return false
  // Another file may have taken its place.
  if (what === FILE && seed === null) return false
  return (seed === null || state.seed === seed) && (odd === '' || state.odd === odd)
}

/** What is said of responses follows the reader's settings. */
function useMarks(): void {
  const settings = useStore(state => state.settings)
  useEffect(() => void markAgain(), [settings])
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
