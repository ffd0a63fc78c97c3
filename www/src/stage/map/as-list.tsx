import { say } from '../../base/words'
import type { Ground } from './ground'
import type { Choice } from './near'
import { lanesOf } from './rank'
import { amperes, earthTold, loopTold, placeName, powerOf, volts, wireTold } from './told'

interface Properties {
  readonly ground: Ground
  readonly onChoose: (choice: Choice) => void
}

/** The picture in words: what stands where, what joins it, and which loops that makes. */
export function AsList({ ground: { map }, onChoose }: Properties) {
  const circuits = map.places.flatMap((place, at) => (place.kind === 'circuit' ? [{ place, at }] : []))
  const lanes = lanesOf(map)
  const group = (name: string, lane: number) => {
    const there = map.places.flatMap((place, at) =>
      place.kind !== 'circuit' && lanes[at] === lane ? [{ place, at }] : [],
    )
    return there.length === 0 ? null : (
      <>
        <h4>{name}</h4>
        <ul>
          {there.map(({ place, at }) => (
            <li key={at}>
              <button type="button" class="link" onClick={() => onChoose({ kind: 'place', at })}>
                {[placeName(place), powerOf(place), volts(place.volts)].filter(text => text !== '').join(', ')}
              </button>
            </li>
          ))}
        </ul>
      </>
    )
  }
  return (
    <div class="map-list">
      <h3>{say('stage-map-places')}</h3>
      {circuits.map(({ place }, lane) => (
        <div key={place.id}>{group(earthTold(place), lane)}</div>
      ))}
      {group(say('stage-map-no-circuit'), circuits.length)}
      <h3>{say('stage-map-wires')}</h3>
      <ul>
        {map.wires.map((wire, at) => (
          <li key={at}>
            <button type="button" class="link" onClick={() => onChoose({ kind: 'wire', at })}>
              {wireTold(map, wire)}
            </button>
          </li>
        ))}
      </ul>
      <h3>{say('stage-map-loops', { loops: String(map.loop_count) })}</h3>
      <ol>
        {map.loops.map((loop, at) => (
          <li key={at}>
            <button type="button" class="link" onClick={() => onChoose({ kind: 'loop', at })}>
              {say('stage-map-loop-told', { loop: loopTold(map, loop), current: amperes(loop.amperes) })}
            </button>
          </li>
        ))}
      </ol>
    </div>
  )
}
