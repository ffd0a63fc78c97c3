import type { ComponentChild, FunctionComponent } from 'preact'
import { useCallback, useEffect, useState } from 'preact/hooks'
import { Missing } from '../base/missing'
import { pieceOf } from '../base/piece'
import { say } from '../base/words'
import type { LessonAddress } from './address'
import type { LessonState } from './lesson-state'

/** How else than to a learner a lesson is shown. A learner never needs it, so it is a piece of its own. */
export interface Teach {
  /** Of the lesson that is open, by what the address calls them. */
  readonly opened: Readonly<Record<string, FunctionComponent<{ readonly state: LessonState }>>>
  readonly Editor: FunctionComponent<{ readonly address: LessonAddress }>
  /** The results that were handed in; `result` comes with the address. */
  readonly Collect: FunctionComponent<{ readonly result: string }>
}

const piece = pieceOf<Teach>('teach')

/** What the trainer's ways show, once their script has come. */
export function Taught({ show }: { readonly show: (teach: Teach) => ComponentChild }) {
  const [teach, setTeach] = useState(piece.here)
  const [failed, setFailed] = useState(false)
  const again = useCallback(() => {
    setFailed(false)
    piece.want().then(
      come => setTeach(come),
      () => setFailed(true),
    )
  }, [])
  useEffect(again, [again])
  if (teach !== null) return <>{show(teach)}</>
  return (
    <article class="lesson">
      <h1 tabIndex={-1}>{say('learn')}</h1>
      <Missing later={{ failed, again }} />
    </article>
  )
}
