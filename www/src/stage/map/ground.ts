// The ground map of the show that is open, as it was solved last.

import { useEffect, useState } from 'preact/hooks'
import type { GroundMap, Settings, Show } from '../../../generated/contract'
import { askStage } from '../../engine/stage'
import { useStore } from '../../screen/store'
import { useProject } from '../show/project'
import { layingOut, type Layout } from './layout'

/** So many sets of leads to isolate are tried at first, and times so many when asked to try harder. */
const SETS = 400
const HARDER = 8

export interface Ground {
  readonly map: GroundMap
  readonly layout: Layout
  /** The show that it is the map of. */
  readonly show: Show
}

interface Asked {
  readonly ground: Ground | null
  /** Whether a newer one is being solved. */
  readonly solving: boolean
  readonly failed: boolean
  readonly tryHarder: () => void
}

/** Asks for the map whenever the show is another; the one before stays until then. */
export function useGround(): Asked {
  const show = useProject(project => project.show)
  const settings = useStore(state => state.settings)
  const [ground, setGround] = useState<Ground | null>(null)
  const [failed, setFailed] = useState(false)
  const [harder, setHarder] = useState({ show, times: 1 })
  const sets = SETS * (harder.show === show ? harder.times : 1)
  const [done, setDone] = useState<readonly unknown[]>([])
  useEffect(() => {
    let wanted = true
    const next = () =>
      void solved(show, sets, settings, () => wanted).then(
        solved => {
          if (!wanted || solved === null) return
          setGround({ ...solved, show })
          setFailed(false)
          setDone([show, sets, settings])
        },
        () => wanted && setFailed(true),
      )
    next()
    return () => {
      wanted = false
    }
  }, [show, sets, settings])
  const solving = !failed && !(done[0] === show && done[1] === sets && done[2] === settings)
  return { ground, solving, failed, tryHarder: () => setHarder({ show, times: (sets / SETS) * HARDER }) }
}

let busy: Promise<unknown> = Promise.resolve()

/** One at a time: of the states that waited meanwhile, only the one that is still wanted is solved. */
function solved(
  show: Show,
  sets: number,
  settings: Settings,
  wanted: () => boolean,
): Promise<Omit<Ground, 'show'> | null> {
  const one = busy.then(async () => {
    if (!wanted()) return null
    const map = await askStage('stage_map', show, sets, settings)
    return { map, layout: await laidOut(map) }
  })
  busy = one.catch(() => undefined)
  return one
}

/** Lays a map out between whatever else the page does. */
async function laidOut(map: GroundMap): Promise<Layout> {
  const steps = layingOut(map)
  for (;;) {
    const { done, value } = steps.next()
    if (done === true) return value
    await new Promise(next => setTimeout(next))
  }
}
