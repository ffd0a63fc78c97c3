import { useId, useState } from 'preact/hooks'
import { constants, type Varied } from '../../generated/contract'
import { shownDescription } from '../screen/descriptions'
import { isHidden } from '../screen/embed'
import type { Tolerance } from '../screen/link'
import { tolerate, tolerateNothing } from '../screen/screen'
import { filling } from '../screen/shown'
import { embedOf, useStore, type State } from '../screen/store'
import { Awaiting } from './coming'
import { say } from '../base/words'

/** How often a rig may be drawn, to choose from. */
const COUNTS = [500, constants.draws.usual, constants.draws.most]
const ALL = constants.all_parts

/** Turns on the band that part tolerances give, and says how wide they are. */
export function Tolerances() {
  const tolerance = useStore(({ place }) => (place.kind === 'calculator' ? place.filling.tolerance : null))
  const [open, setOpen] = useState(tolerance !== null)
  return (
    <details class="tolerances" open={open} onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>
        <h2>{say('tolerances')}</h2>
      </summary>
      <div class="inside">
        <label class="switch">
          <input
            type="checkbox"
            checked={tolerance !== null}
            onChange={event => (event.currentTarget.checked ? tolerate({}) : tolerateNothing())}
          />
          <span>{say('tolerances-show')}</span>
        </label>
        {tolerance === null ? <p class="hint">{say('tolerances-hint')}</p> : <Asked tolerance={tolerance} />}
      </div>
    </details>
  )
}

function Asked({ tolerance }: { readonly tolerance: Tolerance }) {
  const spread = useStore(state => state.spread)
  const spreading = useStore(state => state.spreading)
  const { percent, draws } = tolerance
  const kinds = spread?.kinds ?? []
  const put = (id: string, text: string) => {
    // Of the newest input, which may not be drawn yet.
    const { [id]: _, ...others } = filling()?.tolerance?.percent ?? {}
    // One for all is for all.
    const kept = id === ALL ? {} : others
    tolerate({ percent: text === '' ? kept : { ...kept, [id]: Number(text) } })
  }
  return (
    <>
      <div class="sentence">
        {kinds.length > 0 && (
          <Select
            name={say('tolerances-all')}
            value={percent[ALL] === undefined ? '' : `${percent[ALL]}`}
            options={[
              { value: '', text: say('tolerances-usual') },
              ...(kinds[0]?.steps ?? []).map(({ percent, text }) => ({ value: `${percent}`, text })),
            ]}
            onChoose={text => put(ALL, text)}
          />
        )}
        {kinds.map(kind => (
          <Select
            key={kind.id}
            name={kind.name}
            value={`${percent[kind.id] ?? kind.percent}`}
            options={kind.steps.map(({ percent, text, usual }) => ({
              value: `${percent}`,
              text: usual ? say('tolerances-step-usual', { step: text }) : text,
            }))}
            onChoose={text => put(kind.id, text)}
          />
        ))}
        <Select
          name={say('tolerances-draws')}
          value={`${draws}`}
          options={[...new Set([...COUNTS, draws])].map(count => ({ value: `${count}`, text: `${count}` }))}
          onChoose={text => tolerate({ draws: Number(text) })}
        />
      </div>
      <div class="drawn" role="status" aria-busy={spreading} data-spread={spread !== null && !spreading}>
        {spreading ? (
          <Awaiting>{say('tolerances-drawing')}</Awaiting>
        ) : (
          <p>{spread?.problem?.message ?? spread?.message}</p>
        )}
      </div>
      {spread !== null && spread.varied.length > 0 && <VariedParts varied={spread.varied} spreading={spreading} />}
    </>
  )
}

interface VariedProperties {
  readonly varied: readonly Varied[]
  readonly spreading: boolean
}

/** Each part that was varied, from where to where. */
function VariedParts({ varied, spreading }: VariedProperties) {
  const hidden = useStore(hiddenNames)
  return (
    <details class="varied">
      <summary>{say('tolerances-varied')}</summary>
      <dl data-spreading={spreading}>
        {varied
          .filter(({ name }) => !hidden.split('\n').includes(name))
          .map(({ name, text }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          ))}
      </dl>
    </details>
  )
}

/** The names of the fields that a lesson hides, one a line. */
function hiddenNames(state: State): string {
  const fields = shownDescription(state)?.fields ?? []
  return fields.flatMap(({ id, name }) => (isHidden(embedOf(state), id) ? [name] : [])).join('\n')
}

interface SelectProperties {
  readonly name: string
  readonly value: string
  readonly options: readonly { readonly value: string; readonly text: string }[]
  readonly onChoose: (value: string) => void
}

function Select({ name, value, options, onChoose }: SelectProperties) {
  const id = useId()
  return (
    <label for={id}>
      <span>{name}</span>
      <select id={id} value={value} onChange={event => onChoose(event.currentTarget.value)}>
        {options.map(option => (
          <option key={option.value} value={option.value}>
            {option.text}
          </option>
        ))}
      </select>
    </label>
  )
}
