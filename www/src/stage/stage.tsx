import type { FunctionComponent } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import { Cautions } from '../base/warnings'
import { say } from '../base/words'
import { writeStage } from '../screen/link'
import { useKeptFocus } from './kept-focus'
import { noteGear } from './gear/note-gear'
import { GearView } from './gear/gear-view'
import { ListView } from './list/list-view'
import { MapView } from './map/map-view'
import { PackingView } from './packing/packing-view'
import { PowerView } from './power/power-view'
import { ShowBar } from './show/show-bar'
import { openLastShow } from './show/opening'
import { useProject } from './show/project'

/** The views of a stage, by their part of the address. */
const VIEWS: Readonly<Record<string, FunctionComponent>> = {
  '': ListView,
  gear: GearView,
  power: PowerView,
  map: MapView,
  packing: PackingView,
}

/** The whole stage: one show, seen from several sides. */
export function Stage({ view }: { readonly view: string }) {
  useEffect(() => void openLastShow(), [])
  const hasGear = useProject(({ show }) => show.gear.length > 0)
  const dangerous = useProject(project => project.dangerous)
  useEffect(() => noteGear(hasGear), [hasGear])
  const article = useRef<HTMLElement>(null)
  useKeptFocus(article)
  // An address that names no view shows the first.
  const View = (Object.hasOwn(VIEWS, view) ? VIEWS[view] : undefined) ?? ListView
  return (
    <article ref={article} class="stage" data-view={view}>
      <div class="intro">
        <h1 tabIndex={-1}>{say('plan')}</h1>
      </div>
      <ShowBar view={view} />
      {dangerous && <Cautions texts={[say('stage-caution-stop')]} />}
      <nav class="views" aria-label={say('stage-views')}>
        {Object.entries(VIEWS).map(([id, one]) => (
          <a key={id} href={writeStage(id)} aria-current={one === View ? 'page' : undefined}>
            {say(`stage-view-${id === '' ? 'list' : id}`)}
          </a>
        ))}
      </nav>
      <View />
    </article>
  )
}
