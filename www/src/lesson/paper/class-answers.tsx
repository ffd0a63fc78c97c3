import type { LessonStep } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { benchOf, readingOf } from '../bench'
import { doubtInShort } from '../doubt-in-short'
import { asks } from '../lesson-state'
import { stepTitle } from '../title'
import { Because, boundsOf, keyWords, TrainerHead } from './answer-sheet'
import { drawnOf } from './drawn'
import { Paged } from './paged'
import type { Prepared } from './prepared'
import { StepHeading } from './step-heading'

/** What is right on all sheets of a class: what is so for all of them is told once. */
export function ClassAnswers({ sheets }: { readonly sheets: readonly Prepared[] }) {
  const [first] = sheets
  if (first === undefined) return null
  const { lesson } = first.state
  return (
    <Paged
      state={first.state}
      last={sheets.at(-1)?.state.seed}
      foot={say('lesson-for-trainer')}
      head={<TrainerHead state={first.state} />}
    >
      <Keys sheets={sheets} steps={lesson.steps} />
      {lesson.steps.map((step, at) => (
        <section key={at} class="lesson-sheet-step" data-step={at + 1} data-kind={step.kind}>
          <div class="lesson-sheet-top">
            <StepHeading state={first.state} step={step} at={at} />
            {step.kind === 'curve' && step.good !== '' && <p>{say('lesson-curve-credit', { good: step.good })}</p>}
          </div>
          <Because state={first.state} step={step} />
        </section>
      ))}
    </Paged>
  )
}

interface KeysProperties {
  readonly sheets: readonly Prepared[]
  readonly steps: readonly LessonStep[]
}

/** What is right for each step: once where it is the same on every sheet, and else sheet by sheet. */
function Keys({ sheets, steps }: KeysProperties) {
  const settings = useStore(state => state.settings)
  const asked = steps.flatMap((step, at) => (asks(step) ? [at] : []))
  const alike = asked.filter(at => isAlike(sheets, at))
  const apart = asked.filter(at => !alike.includes(at))
  const nameOf = (at: number) => `${at + 1}. ${stepTitle(steps[at], at)}`
  const drawn = sheets.map(({ state }) => drawnOf(state, settings))
  return (
    <>
      {alike.length > 0 && (
        <div class="lesson-keys-alike">
          <h3>{say('lesson-keys-alike')}</h3>
          <dl>
            {alike.map(at => (
              <div key={at} data-step={at + 1}>
                <dt>{nameOf(at)}</dt>
                <dd>{wordsOf(sheets[0], at)}</dd>
              </div>
            ))}
          </dl>
        </div>
      )}
      <table class="lesson-keys">
        <caption>{say('lesson-keys')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('lesson-keys-sheet')}</th>
            {drawn[0]?.map(({ id, name }) => (
              <td key={id}>{name}</td>
            ))}
            {apart.map(at => (
              <th key={at} scope="col">
                {nameOf(at)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {sheets.map((sheet, index) => (
            <tr key={sheet.state.seed} data-seed={sheet.state.seed}>
              <th scope="row">{sheet.state.seed}</th>
              {drawn[index]?.map(({ id, text }) => (
                <td key={id} data-field={id}>
                  {text}
                </td>
              ))}
              {apart.map(at => (
                <KeyCell key={at} sheet={sheet} at={at} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

/** Whether all sheets have the same right answer to a step, and none a doubtful one. */
function isAlike(sheets: readonly Prepared[], at: number): boolean {
  const told = wordsOf(sheets[0], at)
  return told !== '' && sheets.every(sheet => sheet.checks?.[at]?.doubt === null && wordsOf(sheet, at) === told)
}

function wordsOf(sheet: Prepared | undefined, at: number): string {
  const key = sheet?.checks?.[at]?.key ?? null
  const step = sheet?.state.lesson.steps[at]
  return key === null || step === undefined ? '' : keyWords(step, key)
}

/** What is right for one step of one sheet. */
function KeyCell({ sheet, at }: { readonly sheet: Prepared; readonly at: number }) {
  const { state, checks } = sheet
  const step = state.lesson.steps[at]
  const settings = useStore(state => state.settings)
  const { key = null, doubt = null } = checks?.[at] ?? {}
  const reading = readingOf(benchOf(state, at, settings), step?.reading ?? '')
  const bounds = key === null ? null : boundsOf(key, reading, settings)
  return (
    <td data-step={at + 1} data-kind={step?.kind}>
      <strong>{wordsOf(sheet, at)}</strong>
      {bounds !== null && <span class="hint">{say('lesson-key-bounds', bounds)}</span>}
      {doubt !== null && step !== undefined && <em>{doubtInShort(doubt, step)}</em>}
    </td>
  )
}
