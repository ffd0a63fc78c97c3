import type { LessonStep } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { benchOf, type Bench } from '../bench'
import { Given } from '../given'
import { asks } from '../lesson-state'
import { pointsText } from '../points'
import { Said } from '../said'
import { StepHeading } from './step-heading'
import { titleOf } from '../title'
import { titledIn, toldIn } from '../told-in'
import { Paged } from './paged'
import { PaperRig } from './paper-rig'
import type { Prepared } from './prepared'
import { Offered, SilentHere, Wanted } from './question'
import { ShownOnPaper } from './shown-on-paper'
import { Blanks } from './blanks'

/** A lesson to fill in by hand: nothing on it tells an answer. */
export function Worksheet({ sheet }: { readonly sheet: Prepared }) {
  const { state } = sheet
  const settings = useStore(state => state.settings)
  const { lesson } = state
  const benches = lesson.steps.map((_, at) => benchOf(state, at, settings))
  return (
    <Paged
      state={state}
      foot=""
      head={
        <>
          <h2 dir="auto" lang={titledIn(state, lesson)}>
            {titleOf(lesson)}
          </h2>
          <p class="lesson-name-line">
            <span>{say('lesson-sheet-name')}</span>
            <span>{say('lesson-sheet-date')}</span>
            <span>{say('lesson-sheet-points', { of: pointsText(pointsOf(lesson.steps), settings) })}</span>
          </p>
        </>
      }
    >
      {lesson.steps.map((step, at) => (
        <Step key={at} sheet={sheet} at={at} step={step} bench={benches[at] ?? null} isNewRig={isNew(benches, at)} />
      ))}
    </Paged>
  )
}

export function pointsOf(steps: readonly LessonStep[]): number {
  return steps.filter(asks).reduce((sum, { points }) => sum + points, 0)
}

/** Whether the picture of a rig is another than that of the step before. */
function isNew(benches: readonly (Bench | null)[], at: number): boolean {
  const picture = (bench: Bench | null | undefined) => JSON.stringify(bench?.answer.report?.diagram ?? null)
  return at === 0 || picture(benches[at]) !== picture(benches[at - 1])
}

interface StepProperties {
  readonly sheet: Prepared
  readonly at: number
  readonly step: LessonStep
  readonly bench: Bench | null
  readonly isNewRig: boolean
}

function Step({ sheet, at, step, bench, isNewRig }: StepProperties) {
  const dealt = sheet.state.dealt.steps[at]
  if (dealt === undefined) return null
  const asked = {
    step,
    dealt,
    bench,
    measured: sheet.measured[at] ?? [],
    eye: sheet.eyes[at] ?? null,
    isMeasured: true,
  }
  return (
    <section class="lesson-sheet-step" data-step={at + 1} data-kind={step.kind}>
      <StepHeading state={sheet.state} step={step} at={at} />
      <SilentHere step={step} />
      <div class="lesson-text" lang={toldIn(sheet.state, step, ({ text }) => text)}>
        <Said text={step.text} />
      </div>
      {step.given.length > 0 && <Given step={step} bench={bench} />}
      {isNewRig && <PaperRig bench={bench} given={step.given} />}
      {asks(step) ? (
        <>
          <Wanted {...asked} />
          <Offered {...asked} />
          <Blanks {...asked} />
        </>
      ) : (
        <ShownOnPaper step={step} bench={bench} id={`sheet-${sheet.state.seed}-${at}`} />
      )}
    </section>
  )
}
