import { RigDrawing } from '../../rig/drawing'
import { layOut } from '../../rig/layout'
import { useRig, type OfRig } from '../use-rig'

/** The width of a picture on paper and the size of its letters, in pixels. */
const WIDTH = 900
const LETTERS = 15

/** The picture of a rig, where nothing that is hidden can be read off it. */
export function PaperRig(of: OfRig) {
  const shown = useRig(of)
  if (shown === null) return null
  return (
    <figure class="rig lesson-paper-rig">
      <RigDrawing layout={layOut(shown, WIDTH, LETTERS, 0)} label={shown.summary} />
    </figure>
  )
}
