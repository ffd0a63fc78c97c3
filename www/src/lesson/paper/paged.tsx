import type { ComponentChildren } from 'preact'
import { say } from '../../base/words'
import { whole } from '../../screen/address'
import { writeLesson } from '../../screen/link'
import { QrPicture, qrPath, type QrPath } from '../../share/qr-code'
import { FILE, writeLessonAddress } from '../address'
import type { LessonState } from '../lesson-state'
import { titleOf } from '../title'

/** A code of more squares needs a larger picture for a phone to read it from paper. */
const FEW_SQUARES = 77
/** One of more is larger than a foot may be. */
const MOST_SQUARES = 153

interface Properties {
  readonly state: LessonState
  /** The last seed, where it is for all from that of the state on. */
  readonly last?: number | undefined
  /** What stands at the head. */
  readonly head: ComponentChildren
  readonly foot: string
  readonly children: ComponentChildren
}

/**
 * A sheet whose foot stands on each of its pages: printers repeat the foot of a table,
 * and of a page they know nothing that changes from sheet to sheet.
 */
export function Paged({ state, last, head, foot, children }: Properties) {
  return (
    <table class="lesson-sheet" role="presentation" data-seed={state.seed}>
      <tfoot>
        <tr>
          <td>
            <Foot state={state} last={last} name={foot} />
          </td>
        </tr>
      </tfoot>
      <tbody>
        <tr>
          <td>
            <header>{head}</header>
            {children}
          </td>
        </tr>
      </tbody>
    </table>
  )
}

function Foot({ state, last, name }: Pick<Properties, 'state' | 'last'> & { readonly name: string }) {
  const { lesson, seed } = state
  const code = last === undefined ? codeOf(state) : null
  const seeds = last === undefined ? `${seed}` : `${seed} – ${last}`
  return (
    <div class="lesson-foot">
      <p>
        {[name, titleOf(lesson)].filter(Boolean).join(' · ')}
        <br />
        {say('lesson-seed', { seed: seeds, id: lesson.id, revision: `${lesson.revision}` })}
        {lesson.by !== '' && ` · ${[lesson.by, lesson.licence].filter(Boolean).join(', ')}`}
      </p>
      {code !== null && (
        <span class="lesson-foot-code" data-dense={code.size > FEW_SQUARES}>
          <QrPicture code={code} name={say('lesson-sheet-code')} />
        </span>
      )}
    </div>
  )
}

/** The way to the lesson with the same values; nothing where no other device finds it, or no camera reads it. */
export function codeOf({ what, seed }: Pick<LessonState, 'what' | 'seed'>): QrPath | null {
  const link = whole(writeLesson(writeLessonAddress({ what, seed, step: null, view: '' })))
  const code = what === FILE || !/^https?:/.test(link) ? null : qrPath(link)
  return code !== null && code.size <= MOST_SQUARES ? code : null
}
