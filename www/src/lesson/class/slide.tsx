import { useEffect, useState } from 'preact/hooks'
import type { Measured, StepCheck } from '../../../generated/contract'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { getState, useStore } from '../../screen/store'
import { benchOf, plotOf, readingOf } from '../bench'
import { Given } from '../given'
import { asks, type LessonState } from '../lesson-state'
import { prepare, type Prepared } from '../paper/prepared'
import { EmptyAxes } from '../paper/empty-axes'
import { PaperRig } from '../paper/paper-rig'
import { Question } from '../paper/question'
import { keyPlot, KeyText } from '../paper/answer-sheet'
import { Said } from '../said'
import { ShownPlot } from '../shown-plot'

interface Properties {
  readonly state: LessonState
  readonly at: number
  readonly revealed: boolean
  readonly measured: readonly Measured[]
}

/** One step on a wall: what is asked, and once it is revealed what is right. */
export function Slide({ state, at, revealed, measured }: Properties) {
  const settings = useStore(state => state.settings)
  const step = state.lesson.steps[at]
  const dealt = state.dealt.steps[at]
  const bench = benchOf(state, at, settings)
  if (step === undefined || dealt === undefined) return null
  const reading = asks(step) || step.reading === '' ? undefined : readingOf(bench, step.reading)
  const plot = asks(step) ? (revealed ? keyPlot(step, bench) : undefined) : plotOf(bench, step.plot)
  return (
    <section class="lesson-slide" data-kind={step.kind} data-revealed={revealed} aria-labelledby="lesson-slide">
      <div class="lesson-slide-asked">
        <h2 id="lesson-slide" tabIndex={-1}>
          {step.title}
        </h2>
        <div class="lesson-text">
          <Said text={step.text} />
        </div>
        {step.given.length > 0 && <Given step={step} bench={bench} />}
        {reading !== undefined && (
          <p class="lesson-reading">
            {reading.name}: <strong>{reading.text}</strong>
          </p>
        )}
        <Question step={step} dealt={dealt} bench={bench} measured={measured} />
        {step.kind === 'choice' && (
          <ul class="lesson-slide-ways">
            {dealt.ways.map(({ id, name }) => (
              <li key={id}>{name}</li>
            ))}
          </ul>
        )}
      </div>
      <div class="lesson-slide-shown" aria-live="polite">
        {revealed && <Key state={state} at={at} />}
        {plot !== undefined && <ShownPlot key={plot.id} plot={plot} />}
        {revealed && step.because !== '' && (
          <div class="lesson-text lesson-because">
            <h3>{say('lesson-because')}</h3>
            <Said text={step.because} />
          </div>
        )}
        {!revealed && step.kind === 'curve' && <EmptyAxes step={step} bench={bench} />}
        {!revealed && <PaperRig bench={bench} given={step.given} />}
      </div>
    </section>
  )
}

/** What is right, which is not asked for before it is revealed. */
export function Key({ state, at }: Pick<Properties, 'state' | 'at'>) {
  const settings = useStore(state => state.settings)
  const checks = useChecks(state)
  const step = state.lesson.steps[at]
  if (checks === null || step === undefined || !asks(step)) return null
  return <KeyText step={step} bench={benchOf(state, at, settings)} keyOf={checks[at]?.key ?? null} />
}

/** What is right for each step; nothing until it is worked out. */
function useChecks({ lesson, seed }: LessonState): readonly StepCheck[] | null {
  const settings = useStore(state => state.settings)
  const [checks, setChecks] = useState<readonly StepCheck[] | null>(null)
  useEffect(() => {
    let isNewest = true
    // Where it cannot be worked out, nothing is shown.
    askStage('lesson_check', lesson, seed, settings).then(
      checks => isNewest && setChecks(checks),
      () => undefined,
    )
    return () => {
      isNewest = false
    }
  }, [lesson, seed, settings])
  return checks
}

/** The open lesson with all that can be measured. */
export function useMeasurements(state: LessonState): Prepared['measured'] {
  const [measured, setMeasured] = useState<Prepared['measured']>([])
  const { what, lesson, flaws, seed } = state
  useEffect(() => {
    let isNewest = true
    prepare({ what, lesson, flaws }, seed, getState().settings, false).then(
      ({ measured }) => isNewest && setMeasured(measured),
      () => undefined,
    )
    return () => {
      isNewest = false
    }
  }, [what, lesson, flaws, seed])
  return measured
}
