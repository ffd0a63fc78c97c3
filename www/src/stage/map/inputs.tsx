import { useEffect, useState } from 'preact/hooks'
import type { MapBackwards, MapInput, MapWorking } from '../../../generated/contract'
import { AllSteps } from '../../answer/working'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { writeStage } from '../../screen/link'
import { useStore } from '../../screen/store'
import type { Ground } from './ground'
import type { Choice } from './near'
import { decibels, hertz, loopTold, volts } from './told'

interface Properties {
  readonly ground: Ground
  readonly choice: Choice | null
  readonly onChoose: (choice: Choice | null) => void
  readonly onSee: () => void
}

/** So many are shown at first. */
const FIRST = 8

/** Every input that something hums at, the worst first. */
export function InputsView({ ground, choice, onChoose, onSee }: Properties) {
  const [all, setAll] = useState(false)
  const { inputs } = ground.map
  if (inputs.length === 0) return null
  const chosen = choice?.kind === 'input' ? choice.at : -1
  const shown = inputs.slice(0, all ? inputs.length : Math.max(FIRST, chosen + 1))
  return (
    <section>
      <h3>{say('stage-map-inputs')}</h3>
      <ol class="map-inputs" role="list">
        {shown.map((input, at) => (
          <li key={`${input.line} ${input.at}`} data-over={input.over}>
            <button
              type="button"
              aria-expanded={at === chosen}
              onClick={() => onChoose(at === chosen ? null : { kind: 'input', at })}
            >
              <span class="map-mark" aria-hidden="true">
                {input.over ? '✕' : '✓'}
              </span>
              <span>{nameOf(input)}</span>
              <span class="map-figure">{decibels(input.distance, input.limit)}</span>
              <span class="hint">{standing(input)}</span>
            </button>
            {at === chosen && <About ground={ground} input={input} onSee={onSee} />}
          </li>
        ))}
      </ol>
      {shown.length < inputs.length && (
        <button type="button" class="chip" onClick={() => setAll(true)}>
          {say('stage-map-all', { inputs: String(inputs.length) })}
        </button>
      )}
    </section>
  )
}

/** What an input is called. */
export function nameOf({ name, line, at }: MapInput): string {
  const called = name === '' ? line : name
  return at === 'amplifier' ? say('stage-map-at-amplifier', { name: called }) : called
}

function standing({ over, limit }: MapInput): string {
  if (limit === null) return say('stage-map-no-limit')
  return say(over ? 'stage-map-over' : 'stage-map-under', { limit: decibels(limit) })
}

interface AboutProperties {
  readonly ground: Ground
  readonly input: MapInput
  readonly onSee: () => void
}

/** How the hum at an input comes about, and what would make it audible. */
function About({ ground, input, onSee }: AboutProperties) {
  const { map } = ground
  const loop = input.by === null ? undefined : map.loops[input.by]
  return (
    <div class="map-about">
      <p>{say('stage-map-hum', { volts: volts(input.volts) })}</p>
      {loop === undefined ? (
        <p>{say('stage-map-no-loop')}</p>
      ) : (
        <p class="map-loop">
          <strong>{say('stage-map-by')}</strong> {loopTold(map, loop)}
        </p>
      )}
      <Components input={input} />
      <p class="tools">
        <button type="button" class="chip" onClick={onSee}>
          {say('stage-map-see')}
        </button>
        <a class="link" href={writeStage()}>
          {say('stage-map-to-line')}
        </a>
      </p>
      <Backwards ground={ground} input={input} />
      <HowItComes ground={ground} input={input} />
    </div>
  )
}

function Components({ input: { components } }: { readonly input: MapInput }) {
  const heard = components.filter(([, size]) => size > 0)
  if (heard.length === 0) return null
  const told = heard.map(([frequency, size]) => `${hertz(frequency)}: ${volts(size)}`).join('; ')
  return <p class="hint">{say('stage-map-components', { components: told })}</p>
}

function Backwards({ ground, input }: { readonly ground: Ground; readonly input: MapInput }) {
  const { show } = ground
  const [found, setFound] = useState<readonly MapBackwards[] | null>(null)
  useEffect(() => {
    let wanted = true
    void askStage('stage_map_backwards', show, input.line, input.at).then(found => wanted && setFound(found))
    return () => {
      wanted = false
    }
  }, [show, input.line, input.at])
  if (found === null || found.length === 0) return null
  const name = (id: string) => show.power.find(circuit => circuit.id === id)?.name || id
  return (
    <div class="map-backwards">
      <h4>{say('stage-map-backwards')}</h4>
      <ul>
        {found.map(back => (
          <li key={back.circuit}>{stands(back, name(back.circuit))}</li>
        ))}
      </ul>
    </div>
  )
}

function stands({ stands, now }: MapBackwards, circuit: string): string {
  if (stands === 'nothing') return say('stage-map-always', { circuit })
  if (stands === 'anything') return say('stage-map-never', { circuit })
  return say('stage-map-from', { circuit, volts: volts(stands.upto), now: volts(now) })
}

/** The working of an input, asked for once it is opened. */
function HowItComes({ ground: { show }, input: { line, at } }: { readonly ground: Ground; readonly input: MapInput }) {
  const settings = useStore(state => state.settings)
  const [open, setOpen] = useState(false)
  const [working, setWorking] = useState<MapWorking | null>(null)
  useEffect(() => {
    if (!open) return undefined
    let wanted = true
    void askStage('stage_map_working', show, line, at, settings).then(found => wanted && setWorking(found))
    return () => {
      wanted = false
    }
  }, [open, show, line, at, settings])
  return (
    <details class="working" onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>{say('working')}</summary>
      {open && working !== null && working.steps.length === 0 && <p>{say('stage-map-silent')}</p>}
      {open && working !== null && working.steps.length > 0 && (
        <>
          <p class="hint">{say('stage-map-at-frequency', { frequency: hertz(working.frequency) })}</p>
          <AllSteps steps={working.steps} plain={false} />
        </>
      )}
    </details>
  )
}
