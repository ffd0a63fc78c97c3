import { useMemo } from 'preact/hooks'
import { RigDrawing } from '../../rig/drawing'
import { layOut } from '../../rig/layout'
import { shownOf } from '../../rig/rig'
import type { Bench } from '../bench'

/** The width of a picture on paper and the size of its letters, in pixels. */
const WIDTH = 900
const LETTERS = 15

interface Properties {
  readonly bench: Bench | null
  /** Fields that the learner is told; what others decide is not to be seen. */
  readonly given: readonly string[]
}

/** The picture of a rig, where nothing that is hidden can be read off it. */
export function PaperRig({ bench, given }: Properties) {
  const whole = bench?.answer.report?.diagram ?? null
  const fields = bench?.description?.fields
  const shown = useMemo(() => {
    const hidden = (fields ?? []).map(({ id }) => id).filter(id => !given.includes(id))
    return shownOf(whole, { open: null, locked: [], hidden, working: false, theme: 'system' })
  }, [whole, fields, given])
  if (shown === null) return null
  return (
    <figure class="rig lesson-paper-rig">
      <RigDrawing layout={layOut(shown, WIDTH, LETTERS, 0)} label={shown.summary} />
    </figure>
  )
}
