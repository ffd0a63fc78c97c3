import { useMemo } from 'preact/hooks'
import { useSize } from '../base/size'
import { say } from '../base/words'
import { RigDrawing } from '../rig/drawing'
import { layOut } from '../rig/layout'
import { shownOf } from '../rig/rig'
import type { Bench } from './bench'

/** The letters of a picture against those of a plot. */
const LETTERS = 13 / 12

interface Properties {
  readonly bench: Bench | null
  /** Fields that the learner is told; what others decide is not to be seen. */
  readonly given: readonly string[]
}

/** The rig of a step as a line diagram, where nothing that is hidden can be read off it. */
export function RigPicture({ bench, given }: Properties) {
  const whole = bench?.answer.report?.diagram ?? null
  const fields = bench?.description?.fields
  const shown = useMemo(() => {
    const hidden = (fields ?? []).map(({ id }) => id).filter(id => !given.includes(id))
    return shownOf(whole, { open: null, locked: [], hidden, working: false, theme: 'system' })
  }, [whole, fields, given])
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
