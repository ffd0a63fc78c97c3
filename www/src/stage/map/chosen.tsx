import { say } from '../../base/words'
import { writeStage } from '../../screen/link'
import { edit, useProject } from '../show/project'
import { SelectInput } from '../show/inputs'
import type { Ground } from './ground'
import type { Choice } from './near'
import { amperes, loopTold, placeName, powerOf, volts, wireName, wireTold } from './told'

interface Properties {
  readonly ground: Ground
  readonly choice: Choice | null
  readonly onChoose: (choice: Choice) => void
}

/** What was chosen in the picture or the list, and where it is edited. */
export function ChosenView({ ground, choice, onChoose }: Properties) {
  return (
    <div class="map-chosen" role="status">
      {choice?.kind === 'place' && <PlaceChosen ground={ground} place={choice.at} onChoose={onChoose} />}
      {choice?.kind === 'wire' && <WireChosen ground={ground} wire={choice.at} />}
      {(choice?.kind === 'input' || choice?.kind === 'loop') && <LoopChosen ground={ground} choice={choice} />}
    </div>
  )
}

function PlaceChosen({
  ground: { map },
  place,
  onChoose,
}: Pick<Properties, 'ground' | 'onChoose'> & { readonly place: number }) {
  const one = map.places[place]
  if (one === undefined) return null
  const joined = map.wires.flatMap((wire, at) => (wire.ends.includes(place) ? [{ wire, at }] : []))
  const power = powerOf(one)
  return (
    <>
      <h3>{placeName(one)}</h3>
      <p>
        {power === '' ? '' : `${power}. `}
        {say('stage-map-stands', { volts: volts(one.volts) })}
      </p>
      <ul class="map-joined">
        {joined.slice(0, 12).map(({ wire, at }) => (
          <li key={at}>
            <button type="button" class="link" onClick={() => onChoose({ kind: 'wire', at })}>
              {wireTold(map, wire)}
            </button>
          </li>
        ))}
      </ul>
      {joined.length > 12 && <p class="hint">{say('stage-map-more', { more: String(joined.length - 12) })}</p>}
      <a class="link" href={writeStage(one.kind === 'joint' ? '' : 'power')}>
        {say(one.kind === 'joint' ? 'stage-map-to-line' : 'stage-map-to-power')}
      </a>
    </>
  )
}

function WireChosen({ ground: { map }, wire }: Pick<Properties, 'ground'> & { readonly wire: number }) {
  const one = map.wires[wire]
  if (one === undefined) return null
  return (
    <>
      <h3>{wireName(one)}</h3>
      <p>{wireTold(map, one)}</p>
      {(one.kind === 'earth' || one.kind === 'metalwork') && <p class="hint">{say('stage-map-stays')}</p>}
      {one.kind === 'link' && <LinkEndsInput id={one.id} />}
      {one.kind === 'link' || one.kind === 'metalwork' || one.kind === 'earth' ? (
        <a class="link" href={writeStage('power')}>
          {say('stage-map-to-power')}
        </a>
      ) : (
        <a class="link" href={writeStage()}>
          {say('stage-map-to-line')}
        </a>
      )}
    </>
  )
}

const ENDS = ['both', 'one', 'none', 'transformer', 'optical', 'radio'] as const

/** How the shield of a link ends, changed right here. */
function LinkEndsInput({ id }: { readonly id: string }) {
  const place = useProject(({ show }) => show.links.findIndex(link => link.id === id))
  const ends = useProject(({ show }) => show.links.find(link => link.id === id)?.ends)
  if (ends === undefined) return null
  return (
    <SelectInput
      label={say('stage-map-shield')}
      value={ends}
      options={ENDS.map(one => [one, say(`stage-map-ends-${one}`)] as const)}
      where={{ list: 'links', place, field: 'ends' }}
      onChoice={chosen =>
        edit(say('stage-map-shield'), show => {
          const link = show.links.find(link => link.id === id)
          const found = ENDS.find(one => one === chosen)
          if (link !== undefined && found !== undefined) link.ends = found
        })
      }
    />
  )
}

function LoopChosen({ ground: { map }, choice }: Pick<Properties, 'ground'> & { readonly choice: Choice }) {
  const at = choice.kind === 'input' ? map.inputs[choice.at]?.by : choice.at
  const loop = at === null || at === undefined ? undefined : map.loops[at]
  if (loop === undefined) return null
  return (
    <p class="map-loop">
      <strong>{say('stage-map-loop')}</strong>{' '}
      {say('stage-map-loop-told', { loop: loopTold(map, loop), current: amperes(loop.amperes) })}
    </p>
  )
}
