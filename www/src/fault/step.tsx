import type { FaultFigure, NextStep, Settings } from '../../generated/contract'
import { useContext, useState } from 'preact/hooks'
import { Cautions } from '../base/warnings'
import { say } from '../base/words'
import { cautionOf, deedOf, duration, figureText, lookOf, outcomeName, whyOf } from './said'
import { go, tell } from './search-state'
import { Source } from './source'

interface Properties {
  readonly step: NextStep
  /** What else can be done. */
  readonly others: readonly NextStep[]
  readonly settings: Settings
  /** How it should be, where the step looks whether something is. */
  readonly planned: string | null
}

/** The one thing to do, and what may come of it. */
export function Step({ step, others, settings, planned }: Properties) {
  return (
    <section class="fault-step" aria-labelledby="fault-do" data-step={step.step} onKeyDown={answerByKey}>
      <Deed step={step} planned={planned} />
      <Outcomes step={step} />
      <Skip step={step} others={others} settings={settings} />
      <p class="fault-why">
        {whyOf(step, settings)} <span class="fault-kind">{say(step.computed ? 'fault-computed' : 'fault-judged')}</span>
      </p>
    </section>
  )
}

interface DeedProperties {
  readonly step: NextStep
  /** Whether it stands beneath the cause that it proves. */
  readonly proves?: boolean
  readonly planned?: string | null
}

/** What to do, and what to look for. */
export function Deed({ step, proves = false, planned = null }: DeedProperties) {
  const [deed, more] = deedOf(step, useContext(Source))
  const caution = cautionOf(step.step)
  return (
    <>
      <First step={step} />
      {proves ? (
        <h4>{deed}</h4>
      ) : (
        <h2 id="fault-do" tabIndex={-1} data-focus>
          {deed}
        </h2>
      )}
      {more !== '' && <p>{more}</p>}
      {caution !== null && <Cautions texts={[caution]} />}
      <p class="fault-look">{lookOf(step.step)}</p>
      {planned !== null && <p data-planned>{planned}</p>}
      <Figures figures={step.figures} />
    </>
  )
}

/** What is done before anything is plugged, lifted or fed. */
export function First({ step: { mute, amplifier_off: isDriven } }: { readonly step: NextStep }) {
  return (
    <>
      {mute && <p class="fault-mute">{say('fault-mute-first')}</p>}
      {isDriven && <Cautions texts={[say('fault-amplifier-off')]} />}
    </>
  )
}

/** Numbers of this line. */
export function Figures({ figures }: { readonly figures: readonly FaultFigure[] }) {
  if (figures.length === 0) return null
  return (
    <ul class="fault-figures">
      {figures.map(figure => (
        <li key={`${figure.id} ${figure.of}`} data-figure={figure.id}>
          {figureText(figure)}
        </li>
      ))}
    </ul>
  )
}

/** What may come of it, as big buttons; the number of each is a key while the focus is near. */
export function Outcomes({ step: { step, outcomes } }: { readonly step: NextStep }) {
  return (
    <div class="fault-outcomes">
      {outcomes.map(({ outcome }, at) => (
        <button
          key={outcome}
          type="button"
          data-outcome={outcome}
          data-key={at + 1}
          aria-keyshortcuts={`${at + 1}`}
          onClick={() => tell(step, outcome)}
        >
          {outcomeName(step, outcome)}
        </button>
      ))}
    </div>
  )
}

/** A digit stands for the outcome with that number, where nothing is typed. */
export function answerByKey(event: KeyboardEvent & { readonly currentTarget: HTMLElement }): void {
  const isTyped = event.target instanceof Element && event.target.matches('input, select, textarea')
  if (isTyped || event.ctrlKey || event.altKey || event.metaKey || !/^[1-9]$/.test(event.key)) return
  const button = event.currentTarget.querySelector<HTMLElement>(`[data-key="${event.key}"]`)
  if (button === null) return
  event.preventDefault()
  button.click()
}

function Skip({ step, others, settings }: Omit<Properties, 'planned'>) {
  const [open, setOpen] = useState(false)
  return (
    <>
      <div class="fault-else">
        <button type="button" class="chip" data-outcome="unknown" onClick={() => tell(step.step, null)}>
          {say('fault-outcome-unknown')}
        </button>
        {others.length > 0 && (
          <button type="button" class="chip" aria-expanded={open} onClick={() => setOpen(!open)}>
            {say('fault-skip')}
          </button>
        )}
      </div>
      {open && <Others steps={others} settings={settings} />}
    </>
  )
}

/** What else can be done, and how long each takes. */
export function Others({ steps, settings }: { readonly steps: readonly NextStep[]; readonly settings: Settings }) {
  const source = useContext(Source)
  return (
    <ul class="fault-others">
      {steps.map(one => (
        <li key={one.step}>
          <button type="button" class="chip" data-other={one.step} onClick={() => go({ now: one.step })}>
            {deedOf(one, source)[0]} <span class="hint">{duration(one.minutes, settings)}</span>
          </button>
        </li>
      ))}
    </ul>
  )
}
