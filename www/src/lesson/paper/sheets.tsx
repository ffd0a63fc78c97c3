import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import { say } from '../../base/words'
import { printOut } from '../../share/print-out'
import type { LessonState } from '../lesson-state'
import { TrainerLinks } from '../trainer-links'
import { titleOf } from '../title'
import { AnswerSheet } from './answer-sheet'
import { ClassAnswers } from './class-answers'
import { classSize } from './class-size'
import { codeOf } from './paged'
import { Seeds } from './seeds'
import { usePrepared, type Preparing } from './use-prepared'
import { Worksheet } from './worksheet'

interface Properties {
  readonly state: LessonState
}

/** Sheets to fill in by hand, one a learner. */
export function Worksheets({ state }: Properties) {
  const [count, setCount] = useState(classSize)
  const prepared = usePrepared(state, count, false)
  return (
    <Sheets
      state={state}
      view="sheet"
      hint={say('lesson-sheet-hint')}
      prepared={prepared}
      count={count}
      onCount={setCount}
    >
      {prepared.sheets.map(sheet => (
        <Worksheet key={sheet.state.seed} sheet={sheet} />
      ))}
    </Sheets>
  )
}

/** The same filled in, for the trainer. */
export function AnswerSheets({ state }: Properties) {
  const [count, setCount] = useState(classSize)
  const [working, setWorking] = useState(true)
  const prepared = usePrepared(state, count, true)
  return (
    <Sheets
      state={state}
      view="answers"
      hint={say('lesson-can-be-read')}
      prepared={prepared}
      count={count}
      onCount={setCount}
      tools={
        count === 1 && (
          <label class="lesson-check">
            <input type="checkbox" checked={working} onChange={event => setWorking(event.currentTarget.checked)} />{' '}
            {say('lesson-with-working')}
          </label>
        )
      }
    >
      {count === 1 ? (
        prepared.sheets.map(sheet => <AnswerSheet key={sheet.state.seed} sheet={sheet} working={working} />)
      ) : (
        <ClassAnswers sheets={prepared.sheets} />
      )}
    </Sheets>
  )
}

interface SheetsProperties extends Properties {
  readonly view: 'sheet' | 'answers'
  readonly hint: string
  readonly prepared: Preparing
  readonly count: number
  readonly onCount: (count: number) => void
  readonly tools?: ComponentChildren
  readonly children: ComponentChildren
}

/** Sheets as they are printed, with what is chosen of them above, which is not. */
function Sheets({ state, view, hint, prepared, count, onCount, tools, children }: SheetsProperties) {
  const [refused, setRefused] = useState(false)
  const { sheets, isDone, failed } = prepared
  return (
    <article class="lesson-paper" data-view={view} data-done={isDone} lang={state.lesson.language || undefined}>
      <div class="lesson-paper-tools">
        <h1 tabIndex={-1}>{`${say(`lesson-view-${view}`)}: ${titleOf(state.lesson)}`}</h1>
        <p class="hint">{hint}</p>
        {codeOf(state) === null && <p class="hint">{say('lesson-sheet-no-code')}</p>}
        <TrainerLinks what={state.what} seed={state.seed} now={view} />
        <Seeds state={state} count={count} onCount={onCount} />
        <div class="tools">
          {tools}
          <button type="button" class="chip" disabled={!isDone} onClick={() => setRefused(!printOut())}>
            {say('lesson-print')}
          </button>
          <span role="status">
            {refused && say('lesson-print-refused')}
            {!isDone && failed === '' && say('lesson-preparing', { done: `${sheets.length}`, of: `${count}` })}
          </span>
        </div>
        {failed !== '' && <p role="alert">{say('lesson-failed', { why: failed })}</p>}
      </div>
      {children}
    </article>
  )
}
