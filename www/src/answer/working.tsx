import { useState } from 'preact/hooks'
import type { Step } from '../../generated/contract'
import { Copy } from '../base/copy'
import { memo } from '../base/memo'
import { showWorking } from '../screen/choices'
import { escape } from '../share/embed-code'
import { useStore } from '../screen/store'
import { Wide } from '../base/wide'
import { say } from '../base/words'

/** The way to the answer: each formula, the same with numbers, its result. */
export function Working() {
  const open = useStore(state => state.working)
  const steps = useStore(({ good }) => good?.report.working)
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
          <ol class="steps" role="list">
            {steps.map((step, index) => (
              <StepView key={`${index} ${step.formula}`} step={step} plain={plain} />
            ))}
          </ol>
        </>
      )}
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

function Formula({ mathml, text }: { readonly mathml: string; readonly text: string }) {
  return <math display="block" {...{ alttext: text }} dangerouslySetInnerHTML={{ __html: mathml }} />
}

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
