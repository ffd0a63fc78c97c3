import type { GroundMap, LinkEnds, LinkKind, NotCounted, Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { DoneLine, useDone } from '../show/done'
import { edit, freeId } from '../show/project'

/** By what a stage box can be joined to its console, and the link that says so. */
const WAYS: readonly (readonly [word: string, kind: LinkKind, ends: LinkEnds])[] = [
  ['fibre', 'network', 'optical'],
  ['shielded', 'network', 'both'],
  ['unshielded', 'network', 'transformer'],
  ['multicore', 'audio', 'both'],
]

/** What the answer leaves out between stage boxes and consoles, with a tap for each answer. */
export function NotCountedView({ map: { places, not_counted } }: { readonly map: GroundMap }) {
  const [done, note] = useDone()
  const named = (id: string) => places.find(place => place.kind === 'equipment' && place.id === id)?.name || id
  const join = ({ stage_box, console }: NotCounted, [word, kind, ends]: (typeof WAYS)[number]) => {
    const name = say('stage-map-join-name', { box: named(stage_box), console: named(console) })
    edit(say('stage-map-join', { name }), draft => joined(draft, { name, kind, from: stage_box, to: console, ends }))
    note(say('stage-map-join-done', { name, way: say(`stage-map-join-${word}`) }))
  }
  const isPassive = ({ stage_box }: NotCounted) => {
    const what = say('stage-map-passive', { box: named(stage_box) })
    edit(what, draft => {
      const equipment = draft.equipment.find(({ id }) => id === stage_box)
      if (equipment !== undefined) equipment.power = 'battery'
    })
    note(what)
  }
  return (
    <>
      {not_counted.map(one => (
        <div key={`${one.stage_box} ${one.console}`} class="map-not-counted" role="group" aria-label={one.what}>
          <p>
            <span aria-hidden="true">? </span>
            {one.what}
          </p>
          <div class="chips">
            {one.asks ? (
              WAYS.map(way => (
                <button key={way[0]} type="button" class="chip" onClick={() => join(one, way)}>
                  {say(`stage-map-join-${way[0]}`)}
                </button>
              ))
            ) : (
              <button type="button" class="chip" onClick={() => isPassive(one)}>
                {say('stage-map-passive', { box: named(one.stage_box) })}
              </button>
            )}
          </div>
        </div>
      ))}
      <DoneLine done={done} />
    </>
  )
}

/** Adds what joins two pieces of equipment. */
function joined(show: Show, link: Pick<Show['links'][number], 'name' | 'kind' | 'from' | 'to' | 'ends'>): void {
  show.links.push({ id: freeId(show.links, link.name), r: '', note: '', ...link })
}
