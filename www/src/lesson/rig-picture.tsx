import { useMemo } from 'preact/hooks'
import { useSize } from '../base/size'
import { say } from '../base/words'
import { RigDrawing } from '../rig/drawing'
import { layOut } from '../rig/layout'
import { useRig, type OfRig } from './use-rig'

/** The letters of a picture against those of a plot. */
const LETTERS = 13 / 12

/** The rig of a step as a line diagram, where nothing that is hidden can be read off it. */
export function RigPicture(of: OfRig) {
  const shown = useRig(of)
  const [ref, width, line] = useSize()
  const layout = useMemo(() => (shown === null ? null : layOut(shown, width, line * LETTERS, 0)), [shown, width, line])
  if (shown === null || layout === null) return null
  return (
    <details class="lesson-rig">
      <summary>{say('lesson-rig')}</summary>
      <div class="picture" ref={ref}>
        <RigDrawing layout={layout} label={shown.summary} />
      </div>
    </details>
  )
}
