import { useRef, useState } from 'preact/hooks'
import { Segments, choices } from '../../base/segments'
import { Cautions } from '../../base/warnings'
import { say } from '../../base/words'
import { AsList } from './as-list'
import { ChosenView } from './chosen'
import { useGround, type Ground } from './ground'
import { InputsView } from './inputs'
import { IsolationView } from './isolation'
import type { Choice } from './near'
import { Picture } from './picture'

/** What of the stage joins which earths, what hums for it, and what to isolate. */
export function MapView() {
  const { ground, solving, failed, tryHarder } = useGround()
  return (
    <div class="ground-map">
      <h2>{say('stage-view-map')}</h2>
      {failed && <p class="problem">{say('stage-map-failed')}</p>}
      {ground === null && !failed && <p role="status">{say('stage-map-coming')}</p>}
      {ground !== null && <Solved ground={ground} solving={solving} tryHarder={tryHarder} />}
    </div>
  )
}

interface Properties {
  readonly ground: Ground
  readonly solving: boolean
  readonly tryHarder: () => void
}

function Solved({ ground, solving, tryHarder }: Properties) {
  const { map, show } = ground
  // What was chosen belongs to its map, whose places another may not have.
  const [chosen, setChosen] = useState<{ readonly of: Ground; readonly choice: Choice | null } | null>(null)
  const choice = chosen?.of === ground ? chosen.choice : null
  const choose = (choice: Choice | null) => setChosen({ of: ground, choice })
  const [how, setHow] = useState<'picture' | 'list'>('picture')
  const seen = useRef<HTMLDivElement>(null)
  const see = () => {
    setHow('picture')
    seen.current?.scrollIntoView({ block: 'start' })
  }
  if (map.places.length === 0) {
    return <p>{map.problem ?? say('stage-map-empty')}</p>
  }
  return (
    <>
      <Cautions texts={map.stops} />
      {map.problem !== null && <p class="problem">{map.problem}</p>}
      <div class="map-parts">
        <div class="map-words">
          {map.problem === null && (
            <IsolationView map={map} solving={solving} onChoose={choose} tryHarder={tryHarder} />
          )}
          <InputsView ground={ground} choice={choice} onChoose={choose} onSee={see} />
          <LeftOutView ground={ground} />
        </div>
        <div class="map-shown" ref={seen}>
          <Segments
            name="map-as"
            legend={say('stage-map-as')}
            options={choices('stage-map-as', ['picture', 'list'])}
            value={how}
            onChoose={setHow}
          />
          <ChosenView ground={ground} choice={choice} onChoose={choose} />
          {how === 'picture' ? (
            <Picture map={map} layout={ground.layout} choice={choice} onChoose={choose} />
          ) : (
            <AsList ground={ground} onChoose={choose} />
          )}
        </div>
      </div>
      {solving && show !== null && (
        <p class="unseen" role="status">
          {say('stage-map-coming')}
        </p>
      )}
    </>
  )
}

/** What is not on the map, and why. */
function LeftOutView({ ground: { map, show } }: { readonly ground: Ground }) {
  if (map.left_out.length === 0) return null
  const name = (id: string) => {
    const line = show.lines.find(line => line.id === id)
    return line === undefined ? id : `${line.channel} ${line.name}`.trim()
  }
  return (
    <section>
      <h3>{say('stage-map-left-out')}</h3>
      <ul>
        {map.left_out.map(({ line, why }) => (
          <li key={`${line} ${why}`}>
            {name(line)}: {why}
          </li>
        ))}
      </ul>
    </section>
  )
}
