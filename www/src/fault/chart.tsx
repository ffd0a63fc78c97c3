import { useContext, useState } from 'preact/hooks'
import type { FaultQuestion, PlanNode } from '../../generated/contract'
import { say } from '../base/words'
import { askStage } from '../engine/stage'
import { printOn } from '../share/print-out'
import { ChartTree } from './chart-tree'
import { Source } from './source'

interface Properties {
  readonly question: FaultQuestion
  /** The line in short, in the reader's words. */
  readonly line: string
}

/** So many steps deep; deeper ones fill more than a page. */
const DEPTHS = [2, 3, 4, 5]
const USUAL = 3

/** The whole plan on one page: what to do, whatever comes of it. */
export function Chart({ question, line }: Properties) {
  const [depth, setDepth] = useState(USUAL)
  const [drawn, setDrawn] = useState<{ readonly asked: string; readonly plan: PlanNode | null } | null>(null)
  const [failed, setFailed] = useState(false)
  const [refused, setRefused] = useState(false)
  const asked = JSON.stringify({ ...question, plan: depth })
  const plan = drawn?.asked === asked ? drawn.plan : null
  const draw = () => {
    setFailed(false)
    askStage('fault_find', JSON.parse(asked) as FaultQuestion).then(
      ({ plan }) => setDrawn({ asked, plan }),
      () => setFailed(true),
    )
  }
  const source = useContext(Source)
  const print = (plan: PlanNode) => () => {
    const sheet = (
      <Source.Provider value={source}>
        <ChartSheet plan={plan} question={question} line={line} />
      </Source.Provider>
    )
    setRefused(!printOn(sheet))
  }
  return (
    <details class="fault-chart">
      <summary>{say('fault-chart')}</summary>
      <p class="hint">{say('fault-chart-hint')}</p>
      <div class="fault-chart-tools">
        <label>
          {say('fault-chart-depth')}{' '}
          <select value={depth} onChange={event => setDepth(Number(event.currentTarget.value))}>
            {DEPTHS.map(count => (
              <option key={count} value={count}>
                {count}
              </option>
            ))}
          </select>
        </label>
        <button type="button" class="chip" onClick={draw}>
          {say('fault-chart-draw')}
        </button>
        {plan !== null && (
          <button type="button" class="chip" onClick={print(plan)}>
            {say('fault-chart-print')}
          </button>
        )}
      </div>
      {failed && <p role="alert">{say('fault-chart-failed')}</p>}
      {refused && <p role="alert">{say('print-refused')}</p>}
      {plan !== null && <ChartTree plan={plan} settings={question.settings} />}
    </details>
  )
}

interface SheetProperties extends Properties {
  readonly plan: PlanNode
}

/** The plan on paper: a sheet to teach with, and for the lid of the case. */
function ChartSheet({ plan, question, line }: SheetProperties) {
  const { symptom, scope, settings } = question
  return (
    <article class="fault-chart-sheet">
      <header>
        <h1>{say('fault-chart-title', { symptom: say(`fault-symptom-${symptom}`) })}</h1>
        <p>{[line, say(`fault-scope-${scope}`)].join(' · ')}</p>
      </header>
      <p class="mind">{say('fault-chart-stop')}</p>
      <p>{say('fault-mute-first')}</p>
      <ChartTree plan={plan} settings={settings} />
      <p class="hint">{say('fault-judgement')}</p>
    </article>
  )
}
