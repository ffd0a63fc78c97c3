import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { Lesson, LessonStep, StepCheck } from '../../../generated/contract'
import { say } from '../../base/words'
import { Wide } from '../../base/wide'
import { askStage } from '../../engine/stage'
import { getState } from '../../screen/store'
import { asks } from '../lesson-state'
import type { DraftLesson } from '../../screen/lesson-drafts'
import { keyOf, readNow, useDraft } from './draft'
import { openForm } from './step-list'
import { doubtInShort } from '../doubt-in-short'
import { notesOf } from './step-notes'

/** So many seeds are looked at. */
const SEEDS = 20

interface Checked {
  readonly lesson: DraftLesson
  /** The same as it was read; nothing where it cannot be. */
  readonly read: Lesson | null
  readonly rows: readonly (readonly StepCheck[])[]
}

/** What is right for each step with each of twenty seeds, and what is doubtful of it. */
export function Seeds() {
  const lesson = useDraft(({ lesson }) => lesson)
  const [checked, setChecked] = useState<Checked | null>(null)
  const running = useRef(0)
  useEffect(() => () => void running.current++, [])
  const run = async () => {
    const own = ++running.current
    const of = lesson
    setChecked({ lesson: of, read: null, rows: [] })
    const read = await readNow()
    if (read === null) return
    for (let seed = 1; seed <= SEEDS; seed++) {
      const row = await askStage('lesson_check', read, seed, getState().settings)
      if (running.current !== own) return
      setChecked(before => ({ lesson: of, read, rows: [...(before?.rows ?? []), row] }))
    }
  }
  const rows = checked?.rows ?? []
  return (
    <section class="edit-seeds" aria-labelledby="edit-seeds">
      <h2 id="edit-seeds">{say('lesson-edit-seeds')}</h2>
      <p class="hint">{say('lesson-edit-seeds-hint')}</p>
      <div class="tools">
        <button type="button" class="chip" onClick={() => void run()}>
          {say('lesson-edit-seeds-run')}
        </button>
        <span role="status">{checked !== null && told(checked)}</span>
      </div>
      {checked !== null && checked.lesson !== lesson && <p class="hint">{say('lesson-edit-seeds-old')}</p>}
      {checked !== null && rows.length === SEEDS && <Notes checked={checked} />}
      {checked !== null && rows.length > 0 && <Table {...checked} />}
    </section>
  )
}

/** What to look at, step by step, each with the way to its form. */
function Notes({ checked: { lesson, read, rows } }: { readonly checked: Checked }) {
  const notes = useMemo(() => (read === null ? [] : notesOf(read, rows)), [read, rows])
  if (notes.length === 0) return null
  return (
    <section class="edit-notes" aria-labelledby="edit-notes">
      <h3 id="edit-notes">{say('lesson-edit-notes')}</h3>
      <ul>
        {notes.map(({ at, text }) => {
          const step = at === null ? undefined : lesson.steps[at]
          return (
            <li key={`${at} ${text}`}>
              {step !== undefined && (
                <button type="button" class="link" onClick={() => openForm(keyOf(step))}>
                  {(at ?? 0) + 1}. {step.title || say('lesson-edit-untitled')}
                </button>
              )}
              <span>{text}</span>
            </li>
          )
        })}
      </ul>
    </section>
  )
}

function told({ rows }: Checked): string {
  if (rows.length < SEEDS) return say('lesson-edit-seeds-on', { count: `${rows.length}`, of: `${SEEDS}` })
  const doubts = rows.flat().filter(({ doubt }) => doubt !== null).length
  return doubts === 0 ? say('lesson-edit-seeds-fine') : say('lesson-edit-seeds-doubts', { count: `${doubts}` })
}

function Table({ lesson, rows }: Pick<Checked, 'lesson' | 'rows'>) {
  const shown = lesson.steps.map((step, at) => ({ step, at })).filter(({ step }) => asks(step))
  return (
    <Wide name={say('lesson-edit-seeds')}>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('lesson-edit-seed')}</th>
            {shown.map(({ step, at }) => (
              <th key={at} scope="col">
                {at + 1}. {step.title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, index) => (
            <tr key={index}>
              <th scope="row">{index + 1}</th>
              {shown.map(({ step, at }) => (
                <Cell key={at} step={step} check={row[at]} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  )
}

function Cell({ step, check }: { readonly step: Pick<LessonStep, 'kind'>; readonly check: StepCheck | undefined }) {
  const doubt = check?.doubt ?? null
  return (
    <td data-doubt={doubt ?? 'none'}>
      {check?.key?.text}
      {doubt !== null && <strong> {doubtInShort(doubt, step)}</strong>}
      {check !== undefined && check.why !== '' && <span class="hint"> {check.why}</span>}
    </td>
  )
}
