import type { ComponentChildren } from 'preact'
import type { Lesson, LessonKey, LessonStep, Plot, Reading, Settings, StepCheck } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { benchOf, plotOf, readingOf, type Bench } from '../bench'
import { axesOf } from '../drawn-curve'
import { quantityText } from '../decades'
import { asks, type LessonState } from '../lesson-state'
import { pointsText } from '../points'
import { Said } from '../said'
import { drawnOf } from './drawn'
import { titleOf } from '../title'
import { titledIn, toldIn } from '../told-in'
import { Paged } from './paged'
import type { Prepared } from './prepared'
import { StepHeading } from './step-heading'
import { PlotOnPaper } from './shown-on-paper'
import { Working } from './working'
import { pointsOf } from './worksheet'

interface Properties {
  readonly sheet: Prepared
  /** Whether it says how the numbers are found. */
  readonly working: boolean
}

/** What is right on one worksheet, how it is found and what to say to it, for the trainer. */
export function AnswerSheet({ sheet, working }: Properties) {
  const { state, checks } = sheet
  return (
    <Paged
      state={state}
      foot={say('lesson-for-trainer')}
      head={<TrainerHead state={state} dealt={<Drawn state={state} />} />}
    >
      {state.lesson.steps.map((step, at) => (
        <Step key={at} sheet={sheet} at={at} step={step} check={checks?.[at]} working={working} />
      ))}
    </Paged>
  )
}

interface HeadProperties {
  readonly state: LessonState
  /** What the seed dealt. */
  readonly dealt?: ComponentChildren
}

/** What stands above all that only the trainer is to read. */
export function TrainerHead({ state, dealt }: HeadProperties) {
  const { lesson } = state
  const settings = useStore(state => state.settings)
  return (
    <>
      <p class="lesson-for-trainer">{say('lesson-for-trainer')}</p>
      <h2 dir="auto" lang={titledIn(state, lesson)}>
        {titleOf(lesson)}
      </h2>
      <p>{say('lesson-sheet-worth', { points: pointsText(pointsOf(lesson.steps), settings) })}</p>
      {dealt}
      <Note state={state} of={lesson} />
    </>
  )
}

/** What was dealt, with its names: also what learners are not told. */
function Drawn({ state }: { readonly state: LessonState }) {
  const settings = useStore(state => state.settings)
  const drawn = drawnOf(state, settings)
  if (drawn.length === 0) return null
  return (
    <dl class="lesson-given" aria-label={say('lesson-dealt')}>
      {drawn.map(({ id, name, text }) => (
        <div key={id} data-field={id}>
          <dt>{name}</dt>
          <dd>{text}</dd>
        </div>
      ))}
    </dl>
  )
}

interface StepProperties extends Properties {
  readonly at: number
  readonly step: LessonStep
  readonly check: StepCheck | undefined
}

function Step({ sheet: { state }, at, step, check, working }: StepProperties) {
  const settings = useStore(state => state.settings)
  const bench = benchOf(state, at, settings)
  const isAsked = asks(step)
  const key = check?.key ?? null
  const plot = isAsked ? keyPlot(step, bench) : undefined
  return (
    <section class="lesson-sheet-step" data-step={at + 1} data-kind={step.kind}>
      <div class="lesson-sheet-top">
        <StepHeading state={state} step={step} at={at} />
        {isAsked && <KeyText step={step} bench={bench} keyOf={key} />}
        {check?.doubt && (
          <p class="lesson-doubt">
            {say(`lesson-doubt-${check.doubt}`)} {check.why}
          </p>
        )}
      </div>
      {plot !== undefined && <PlotOnPaper plot={plot} id={`answers-${state.seed}-${at}`} />}
      {working && key !== null && <Working state={state} at={at} />}
      <Because state={state} step={step} />
    </section>
  )
}

/** Why it is so, and what the trainer is told of it. */
export function Because({ state, step }: { readonly state: LessonState; readonly step: LessonStep }) {
  const { because } = step
  return (
    <>
      {because !== '' && (
        <div class="lesson-text" lang={toldIn(state, step, ({ because }) => because)}>
          <Said text={because} />
        </div>
      )}
      <Note state={state} of={step} />
    </>
  )
}

interface KeyProperties {
  readonly step: LessonStep
  readonly bench: Bench | null
  readonly keyOf: LessonKey | null
}

/** Kinds that ask for a reading or a plot. */
const ASKED = ['number', 'magnitude', 'curve']

/** What is right, in words and with its bounds. */
export function KeyText({ step, bench, keyOf: key }: KeyProperties) {
  const settings = useStore(state => state.settings)
  if (key === null) return <p class="lesson-key">{say('lesson-no-key')}</p>
  const asked = readingOf(bench, step.reading)?.name ?? plotOf(bench, step.plot)?.title ?? ''
  const bounds = boundsOf(key, readingOf(bench, step.reading), settings)
  return (
    <p class="lesson-key">
      {ASKED.includes(step.kind) && asked !== '' && `${asked}: `}
      {key.text !== '' && <strong>{keyWords(step, key)}</strong>} {bounds !== null && say('lesson-full-credit', bounds)}
      {step.kind === 'curve' && step.good !== '' && say('lesson-curve-credit', { good: step.good })}
    </p>
  )
}

/** What is right; of parts there may be other sets that do. */
export function keyWords({ kind }: Pick<LessonStep, 'kind'>, { text, seen }: LessonKey): string {
  // Paper and a wall ask the eye.
  if (kind === 'ear') return seen === null ? '' : say(`lesson-ear-seen-${seen}`)
  return kind === 'target' && text !== '' ? say('lesson-key-parts', { parts: text }) : text
}

/** From and to where a number has full credit. */
export function boundsOf(
  { full }: LessonKey,
  reading: Reading | undefined,
  settings: Settings,
): { readonly from: string; readonly to: string } | null {
  if (full === null || reading === undefined) return null
  const [from, to] = full
  return { from: quantityText(from, reading, settings), to: quantityText(to, reading, settings) }
}

/** The curve that is asked for, on the axes that learners draw on. */
export function keyPlot(step: LessonStep, bench: Bench | null): Plot | undefined {
  const plot = step.kind === 'curve' || step.plot !== '' ? plotOf(bench, step.plot) : undefined
  if (plot === undefined || step.kind !== 'curve') return step.kind === 'fault' ? undefined : plot
  const { x, y } = axesOf(plot, step)
  const isInside = (at: number) => at >= x.from && at <= x.to
  const traces = plot.traces.map(trace => {
    const kept = trace.x.flatMap((at, index) => (isInside(at) ? [index] : []))
    return { ...trace, x: kept.map(index => trace.x[index] ?? 0), y: kept.map(index => trace.y[index] ?? 0) }
  })
  return { ...plot, x, y, bands: [], markers: plot.markers.filter(marker => isInside(marker.x)), traces }
}

function Note({ state, of }: { readonly state: LessonState; readonly of: Lesson | LessonStep }) {
  if (of.note === '') return null
  return (
    <div class="lesson-note">
      <p class="hint">{say('lesson-note')}</p>
      <div lang={toldIn(state, of, ({ note }) => note)}>
        <Said text={of.note} />
      </div>
    </div>
  )
}
