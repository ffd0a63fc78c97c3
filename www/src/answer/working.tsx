import { useState } from 'preact/hooks'
import type { Step } from '../../generated/contract'
import { Copy } from '../base/copy'
import { memo } from '../base/memo'
import { showWorking } from '../screen/choices'
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
          <Formula mathml={step.numbers_mathml} text={step.numbers} />
        </div>
      </Wide>
    )}
    <p class="result">
      = <strong>{step.result}</strong>
    </p>
    <div class="tools">
      <Copy text={() => mathmlOf(step)} name={say('working-mathml')} />
    </div>
  </li>
))

function Formula({ mathml, text }: { readonly mathml: string; readonly text: string }) {
  return <math display="block" {...{ alttext: text }} dangerouslySetInnerHTML={{ __html: mathml }} />
}

/** The formula and the same with numbers, for editors and pages that know MathML. */
function mathmlOf({ formula_mathml, numbers_mathml }: Step): string {
  const rows = [formula_mathml, numbers_mathml].map(row => `<mtr><mtd>${row}</mtd></mtr>`)
  return `<math xmlns="http://www.w3.org/1998/Math/MathML" display="block"><mtable>${rows.join('')}</mtable></math>`
}

function textOf({ name, formula, numbers, result }: Step): string {
  return [name, formula, `= ${numbers}`, `= ${result}`].join('\n')
}
