import { useState } from 'preact/hooks'
import type { Reading, Step } from '../../generated/contract'
import { Copy } from '../base/copy'
import { Formula } from './formula'
import { memo } from '../base/memo'
import { showWorking } from '../screen/choices'
import { escape } from '../share/embed-code'
import { useStore } from '../screen/store'
import { Wide } from '../base/wide'
import { say } from '../base/words'

/** Steps that follow one another, many alike or each of its own. */
interface Stretch {
  readonly chain: boolean
  readonly steps: Step[]
}

function stretches(steps: readonly Step[]): Stretch[] {
  const all: Stretch[] = []
  for (const step of steps) {
    const last = all.at(-1)
    if (last?.chain === step.chain) last.steps.push(step)
    else all.push({ chain: step.chain, steps: [step] })
  }
  return all
}

/**
 * The way to the answer: in short first, then each formula, the same with numbers,
 * its result. The walk through the parts is long, and folded away.
 */
export function Working() {
  const open = useStore(state => state.working)
  const steps = useStore(({ good }) => good?.report.working)
  const headline = useStore(({ good }) => good?.report.headline) ?? []
  const [plain, setPlain] = useState(false)
  return (
    <details class="working" open={open} onToggle={event => showWorking(event.currentTarget.open)}>
      <summary>
        <h2>{say('working')}</h2>
      </summary>
      {open && steps !== undefined && (
        <>
          <div class="tools">
            <Copy text={() => steps.map(textOf).join('\n\n')} name={say('working-copy')} />
            <button type="button" class="chip" aria-pressed={plain} onClick={() => setPlain(!plain)}>
              {say('working-plain')}
            </button>
          </div>
          {!steps.every(isTold) && <p class="hint">{say('working-hushed')}</p>}
          <Simple headline={headline} plain={plain} />
          <AllSteps steps={steps} plain={plain} />
        </>
      )}
    </details>
  )
}

/** The simple formulas that the answer names. */
function Simple({ headline, plain }: { readonly headline: readonly Reading[]; readonly plain: boolean }) {
  const simple = headline.flatMap(({ id, name, because }) => (because === null ? [] : [{ id, name, ...because }]))
  if (simple.length === 0) return null
  return (
    <ul class="simple" aria-label={say('working-simple')} role="list">
      {simple.map(({ id, name, text, formula, formula_mathml }) => (
        <li key={id} data-simple={id}>
          <h3>{name}</h3>
          <p>{text}:</p>
          {plain ? (
            <pre>{formula}</pre>
          ) : (
            <Wide name={name}>
              <div class="formula">
                <Formula mathml={formula_mathml} text={formula} />
              </div>
            </Wide>
          )}
        </li>
      ))}
    </ul>
  )
}

interface StepsProperties {
  readonly steps: readonly Step[]
  readonly plain: boolean
}

/** All steps of a working, those of which many are alike folded away. */
export function AllSteps({ steps, plain }: StepsProperties) {
  return (
    <>
      {stretches(steps).map(({ chain, steps }, index) =>
        chain ? <Chain key={index} steps={steps} plain={plain} /> : <Steps key={index} steps={steps} plain={plain} />,
      )}
    </>
  )
}

/** Steps one after the other. */
function Steps({ steps, plain }: StepsProperties) {
  return (
    <ol class="steps" role="list">
      {steps.map((step, index) => (
        <StepView key={`${index} ${step.formula}`} step={step} plain={plain} />
      ))}
    </ol>
  )
}

/** A walk through the parts, written once it is opened. */
function Chain({ steps, plain }: StepsProperties) {
  const [open, setOpen] = useState(false)
  return (
    <details class="chain" onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>{say('working-chain', { count: String(steps.length) })}</summary>
      {open && <Steps steps={steps} plain={plain} />}
    </details>
  )
}

interface Properties {
  readonly step: Step
  readonly plain: boolean
}

const StepView = memo(({ step, plain }: Properties) => (
  <li data-step>
    <h3>{step.name}</h3>
    {plain ? (
      <pre>{textOf(step)}</pre>
    ) : (
      <Wide name={step.name}>
        <div class="formula">
          <Formula mathml={step.formula_mathml} text={step.formula} />
          {isTold(step) && <Formula mathml={step.numbers_mathml} text={step.numbers} />}
        </div>
      </Wide>
    )}
    {isTold(step) && (
      <p class="result">
        = <strong>{step.result}</strong>
      </p>
    )}
    <div class="tools">
      <Copy text={() => mathmlOf(step)} name={say('working-mathml')} />
    </div>
  </li>
))

/** Whether a step has its numbers; a lesson that hides values keeps them to itself. */
function isTold({ numbers }: Step): boolean {
  return numbers !== ''
}

/** The formula, the same with numbers and the result, for editors and pages that know MathML. */
function mathmlOf(step: Step): string {
  const { formula_mathml, numbers_mathml, result } = step
  const told = isTold(step) ? [numbers_mathml, `<mo>=</mo><mtext>${escape(result)}</mtext>`] : []
  const rows = [formula_mathml, ...told].map(row => `<mtr><mtd columnalign="left">${row}</mtd></mtr>`)
  return `<math xmlns="http://www.w3.org/1998/Math/MathML" display="block"><mtable>${rows.join('')}</mtable></math>`
}

function textOf(step: Step): string {
  const { name, formula, numbers, result } = step
  return [name, formula, ...(isTold(step) ? [`= ${numbers}`, `= ${result}`] : [])].join('\n')
}
