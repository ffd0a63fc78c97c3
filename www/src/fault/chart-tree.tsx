import { useContext } from 'preact/hooks'
import type { PlanNode, Settings } from '../../generated/contract'
import { percent } from '../base/percent'
import { say } from '../base/words'
import { causeName, cureOf, deedOf, duration, lookOf, outcomeName } from './said'
import { Source } from './source'

interface Properties {
  readonly plan: PlanNode
  readonly settings: Settings
}

/** A plan as a chart: a step, and behind each of its outcomes what comes then. */
export function ChartTree({ plan, settings }: Properties) {
  return (
    <div
      class="fault-tree"
      style={{ '--steps': stepsIn(plan) }}
      tabIndex={0}
      role="group"
      aria-label={say('fault-chart')}
    >
      <Place node={plan} settings={settings} />
    </div>
  )
}

/** How many steps stand beside each other where the plan is deepest. */
function stepsIn({ step, branches }: PlanNode): number {
  return step === null ? 0 : 1 + Math.max(0, ...branches.map(branch => (branch === null ? 0 : stepsIn(branch))))
}

function Place({ node, settings }: { readonly node: PlanNode; readonly settings: Settings }) {
  const source = useContext(Source)
  const { step, branches } = node
  if (step === null) return <End node={node} />
  return (
    <div class="fault-place">
      <div class="fault-box" data-step={step.step}>
        {step.mute && <span class="fault-chart-mute">{say('fault-chart-mute')}</span>}
        <strong>{deedOf(step, source)[0]}</strong> <span class="hint">{duration(step.minutes, settings)}</span>
        <p>{lookOf(step.step)}</p>
      </div>
      <ul>
        {step.outcomes.map((outcome, at) => {
          const then = branches[at] ?? null
          return (
            (then !== null || outcome.stops) && (
              <li key={outcome.outcome}>
                <span class="fault-answer">{outcomeName(step.step, outcome.outcome)}</span>
                {then === null ? (
                  <p class="fault-end">{say('fault-chart-stop')}</p>
                ) : (
                  <Place node={then} settings={settings} />
                )}
              </li>
            )
          )
        })}
        {step.outcomes.some(({ stops }, at) => !stops && !branches[at]) && (
          <li>
            <span class="hint">{say('fault-chart-rare')}</span>
          </li>
        )}
      </ul>
    </div>
  )
}

/** Where the chart ends: the likeliest cause, and its cure. */
function End({ node: { leads, by, odds } }: { readonly node: PlanNode }) {
  return (
    <div class="fault-end" data-cause={leads}>
      <strong>{causeName(leads)}</strong> <span class="hint">{percent(odds)}</span>
      <p>{cureOf(leads, by)}</p>
    </div>
  )
}
