import { render, type ComponentChild, type RefObject } from 'preact'
import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { GroundMap } from '../../../generated/contract'
import { fileName } from '../../base/download'
import { Save } from '../../base/save'
import { say } from '../../base/words'
import { pictureOf, pixelsOf } from '../../plot/picture'
import { whilePrinting } from '../show/while-printing'
import { Drawing } from './drawing'
import { MapKey } from './key'
import type { Layout } from './layout'
import { litBox, litBy, worstLoop } from './lit'
import { near, type Choice } from './near'
import { PanZoom } from './pan-zoom'
import type { View } from './sheet'

interface Properties {
  readonly map: GroundMap
  readonly layout: Layout
  readonly choice: Choice | null
  readonly onChoose: (choice: Choice | null) => void
}

/** The picture of the map, with what is chosen lit in it. */
export function Picture({ map, layout, choice, onChoose }: Properties) {
  const whole = useRef<HTMLDivElement>(null)
  const lit = useMemo(() => litBy(map, choice), [map, choice])
  const shown = useMemo(() => litBox(map, layout, lit), [map, layout, lit])
  const home = useMemo(() => litBox(map, layout, worstLoop(map)), [map, layout])
  const [view, setView] = useState<View>(FIRST)
  const counted = { places: String(map.places.length), wires: String(map.wires.length), loops: String(map.loop_count) }
  const summary = say('stage-map-summary', counted)
  const step = (by: 1 | -1) => {
    const next = choice?.kind === 'place' ? choice.at + by : 0
    if (map.places[next] === undefined) return false
    onChoose({ kind: 'place', at: next })
    return true
  }
  const all = <Drawing map={map} layout={layout} lit={lit} view={null} />
  useOnPaper(whole, all)
  const picture = () => {
    const place = document.createElement('div')
    place.className = 'picture'
    document.body.append(place)
    render(all, place)
    const svg = place.querySelector('svg')
    const made =
      svg === null ? { svg: '', width: 0, height: 0 } : pictureOf(svg, { title: say('stage-view-map'), summary })
    render(null, place)
    place.remove()
    return made
  }
  const file = (ending: string) => () => fileName(['map'], ending)
  return (
    <figure class="map-picture">
      <div ref={whole} class="map-paper" />
      <PanZoom
        width={layout.width}
        height={layout.height}
        label={summary}
        shown={shown}
        home={home}
        chosen={choice !== null}
        onRest={setView}
        onTap={(point, pixel) => onChoose(near(layout, point, 14 * pixel))}
        onStep={step}
        onLeave={() => onChoose(null)}
      >
        <Drawing map={map} layout={layout} lit={lit} view={view} />
      </PanZoom>
      <figcaption>
        <p class="hint">{say('stage-map-worst')}</p>
        <MapKey />
        <div class="tools">
          <Save name={say('export-svg')} content={() => picture().svg} type="image/svg+xml" file={file('svg')} />
          <Save name={say('export-png')} content={() => pixelsOf(picture())} type="image/png" file={file('png')} />
        </div>
      </figcaption>
    </figure>
  )
}

/** Nothing is seen yet. */
const FIRST: View = { scale: 1, box: { x: 0, y: 0, width: 0, height: 0 }, left: 0, right: 0, top: 0, bottom: 0 }

/** Puts something into a place of the page while that is printed. */
function useOnPaper(paper: RefObject<HTMLElement | null>, what: ComponentChild): void {
  const latest = useRef(what)
  latest.current = what
  useEffect(() => {
    const place = paper.current
    if (place === null) return undefined
    const end = () => render(null, place)
    const leave = whilePrinting(() => render(latest.current, place), end)
    return () => {
      leave()
      end()
    }
  }, [paper])
}
