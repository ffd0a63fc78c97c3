import { useId } from 'preact/hooks'
import type { DealtStep, EarEye, EarSeen, LessonStep, Measured, Plot } from '../../../generated/contract'
import { say } from '../../base/words'
import { askedName, fieldOf, plotOf, type Bench } from '../bench'
import { SEEN } from '../ear-words'
import { EyeRows, RigNames } from '../ear-eye'
import { ReadingsTable } from '../readings-table'
import { LimitText, partName } from '../target'
import { PlotOnPaper } from './shown-on-paper'

/** What a question on paper or on a wall has to know. */
export interface AskedOnPaper {
  readonly step: LessonStep
  readonly dealt: DealtStep
  readonly bench: Bench | null
  readonly measured: readonly Measured[]
  /** What two rigs look like without their names. */
  readonly eye: EarEye | null
  /** Whether measurements are told: paper cannot measure, and a wall waits. */
  readonly isMeasured: boolean
}

/** What is asked for: a reading, a plot, limits to keep. */
export function Wanted({ step, bench }: Pick<AskedOnPaper, 'step' | 'bench'>) {
  switch (step.kind) {
    case 'number':
    case 'magnitude':
      return <Named name={askedName(bench, step.reading)} />
    case 'curve':
      return <Named name={plotOf(bench, step.plot)?.title ?? ''} />
    case 'target':
      return <Limits step={step} bench={bench} />
    default:
      return null
  }
}

/** What there is to choose from, and what was measured. */
export function Offered(asked: AskedOnPaper) {
  switch (asked.step.kind) {
    case 'target':
      return <Drawer {...asked} />
    case 'ear':
      return asked.eye === null ? null : <TwoRigs step={asked.step} eye={asked.eye} />
    case 'fault':
      return (
        <>
          <Measurements {...asked} />
          <Cases {...asked} />
        </>
      )
    default:
      return null
  }
}

function Named({ name }: { readonly name: string }) {
  return name === '' ? null : (
    <p class="lesson-wanted">
      <strong>{name}</strong>
    </p>
  )
}

function Limits({ step: { limits, budget }, bench }: Pick<AskedOnPaper, 'step' | 'bench'>) {
  return (
    <ul class="lesson-limits" aria-label={say('lesson-limits')}>
      {limits.map((limit, index) => (
        <li key={index}>
          <LimitText limit={limit} bench={bench} />
        </li>
      ))}
      {budget !== null && <li>{say('lesson-budget', { budget: `${budget}` })}</li>}
    </ul>
  )
}

function Drawer({ step: { drawer }, bench }: AskedOnPaper) {
  return (
    <ul class="lesson-boxes" aria-label={say('lesson-drawer')}>
      {drawer.map(part => (
        <li key={`${part.field} ${part.value}`}>
          {fieldOf(bench, part.field).name}:{' '}
          <strong>{say('lesson-part', { name: partName(part, bench), cost: `${part.cost}` })}</strong>
        </li>
      ))}
    </ul>
  )
}

/** What can be measured, with all readings once they are told. */
export function Measurements({ measured, isMeasured }: Pick<AskedOnPaper, 'measured' | 'isMeasured'>) {
  return (
    <ReadingsTable
      heads={[say('lesson-measure-is'), say('lesson-measure-usual'), say('lesson-measure-tells')]}
      rows={measured.map(({ reading, name, text, usual }) => ({
        id: reading,
        name,
        cells: [isMeasured ? text : '', usual, ''],
      }))}
    />
  )
}

function Cases({ step, dealt }: AskedOnPaper) {
  return (
    <>
      <p class="lesson-wanted">
        <strong>{say('lesson-fault-name')}</strong>
      </p>
      <ul class="lesson-boxes">
        {dealt.cases.map(place => (
          <li key={place}>{step.cases[place]?.name}</li>
        ))}
      </ul>
    </>
  )
}

/** What to do with a step by ear where nothing can be played; its text tells how to listen. */
export function SilentHere({ step }: Pick<AskedOnPaper, 'step'>) {
  return step.kind === 'ear' ? <p class="lesson-silent-here">{say('lesson-ear-silent-here')}</p> : null
}

interface TwoRigsProperties {
  readonly step: LessonStep
  readonly eye: EarEye
}

/** Two rigs without their names, one of which is A: paper is silent. */
function TwoRigs({ step, eye }: TwoRigsProperties) {
  const id = useId()
  return (
    <>
      <RigNames step={step} />
      {eye.plot !== null && <PlotOnPaper plot={eye.plot} id={id} />}
      <EyeRows rows={eye.rows} />
      <p class="lesson-wanted">
        <strong>{say('lesson-ear-which')}</strong>
      </p>
      <ul class="lesson-boxes">
        {SEEN.map(seen => (
          <li key={seen}>{say(`lesson-ear-seen-${seen}`)}</li>
        ))}
      </ul>
    </>
  )
}

/** The same two rigs with their names, once it is told which is which. */
export function ToldRigs({ step, eye, seen }: TwoRigsProperties & { readonly seen: EarSeen | null }) {
  const id = useId()
  return (
    <>
      <RigNames step={step} />
      {eye.plot !== null && <PlotOnPaper plot={told(eye.plot, step, seen)} id={id} />}
      <EyeRows rows={eye.rows} />
    </>
  )
}

/** Curves by the names of their rigs; those that cannot be told apart have none. */
function told(plot: Plot, { ways }: LessonStep, seen: EarSeen | null): Plot {
  if (seen === null || seen === 'alike') return plot
  const order = seen === 'first' ? (['a', 'b'] as const) : (['b', 'a'] as const)
  const name = (at: number) =>
    say(`lesson-ear-told-${at === 0 ? 'first' : 'second'}`, {
      which: say(`lesson-ear-letter-${order[at] ?? 'a'}`),
      name: ways[order[at] === 'a' ? 0 : 1]?.name ?? '',
    })
  return { ...plot, traces: plot.traces.map((trace, at) => ({ ...trace, name: name(at) })) }
}
