import { useMemo, useRef } from 'preact/hooks'
import type { GroundMap } from '../../../generated/contract'
import { fileName } from '../../base/download'
import { Save } from '../../base/save'
import { say } from '../../base/words'
import { pictureOf, pixelsOf } from '../../plot/picture'
import { Drawing, type Lit } from './drawing'
import type { Box, Layout } from './layout'
import { near, type Choice } from './near'
import { PanZoom } from './pan-zoom'
import { nth } from './nth'

interface Properties {
  readonly map: GroundMap
  readonly layout: Layout
  readonly choice: Choice | null
  readonly onChoose: (choice: Choice | null) => void
}

/** The picture of the map, with what is chosen lit in it. */
export function Picture({ map, layout, choice, onChoose }: Properties) {
  const place = useRef<HTMLElement>(null)
  const lit = useMemo(() => litBy(map, choice), [map, choice])
  const shown = useMemo(() => around(layout, lit), [layout, lit])
  const counted = { places: String(map.places.length), wires: String(map.wires.length), loops: String(map.loop_count) }
  const summary = say('stage-map-summary', counted)
  const step = (by: 1 | -1) => {
    const next = choice?.kind === 'place' ? choice.at + by : 0
    if (map.places[next] === undefined) return false
    onChoose({ kind: 'place', at: next })
    return true
  }
  const picture = () => {
    const svg = place.current?.querySelector<SVGSVGElement>('svg.ground')
    return svg ? pictureOf(svg, say('stage-view-map'), summary) : { svg: '', width: 0, height: 0 }
  }
  const file = (ending: string) => () => fileName(['map'], ending)
  return (
    <figure ref={place} class="map-picture">
      <PanZoom
        width={layout.width}
        height={layout.height}
        label={summary}
        shown={shown}
        chosen={choice !== null}
        onTap={(point, pixel) => onChoose(near(layout, point, 14 * pixel))}
        onStep={step}
        onLeave={() => onChoose(null)}
      >
        <Drawing map={map} layout={layout} lit={lit} />
      </PanZoom>
      <figcaption>
        <p class="hint">{say('stage-map-key')}</p>
        <div class="tools">
          <Save name={say('export-svg')} content={() => picture().svg} type="image/svg+xml" file={file('svg')} />
          <Save name={say('export-png')} content={() => pixelsOf(picture())} type="image/png" file={file('png')} />
        </div>
      </figcaption>
    </figure>
  )
}

function litBy(map: GroundMap, choice: Choice | null): Lit {
  const loopOf = (at: number | null | undefined): Lit => {
    const wires = at === null || at === undefined ? [] : (map.loops[at]?.wires ?? [])
    return { wires, places: [...new Set(wires.flatMap(wire => map.wires[wire]?.ends ?? []))] }
  }
  switch (choice?.kind) {
    case 'place':
      return { wires: [], places: choice.at < map.places.length ? [choice.at] : [] }
    case 'wire':
      return { wires: choice.at < map.wires.length ? [choice.at] : [], places: [] }
    case 'input': {
      const input = map.inputs[choice.at]
      const lit = loopOf(input?.by)
      return lit.wires.length > 0 || input === undefined ? lit : { wires: [input.wire], places: [] }
    }
    case 'loop':
      return loopOf(choice.at)
    case undefined:
      return { wires: [], places: [] }
  }
}

/** What is lit, without the bars, which are as wide as the picture. */
function around({ boxes, ways, width }: Layout, { wires, places }: Lit): Box | null {
  const there = places.map(place => nth(boxes, place)).filter(box => box.width < width)
  const points =
    there.length > 0
      ? there.flatMap(box => [[box.x, box.y] as const, [box.x + box.width, box.y + box.height] as const])
      : wires.flatMap(wire => nth(ways, wire))
  if (points.length === 0) return null
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)]
  const [x, y] = [Math.min(...xs), Math.min(...ys)]
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y }
}
