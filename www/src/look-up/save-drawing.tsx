import type { RefObject } from 'preact'
import { fileName } from '../base/download'
import { Save } from '../base/save'
import { pictureOf, pixelsOf } from '../plot/picture'
import { isEmbedded, useStore } from '../screen/store'
import { say } from '../base/words'

interface Properties {
  readonly drawing: RefObject<SVGSVGElement | null>
  readonly title: string
  readonly summary: string
  /** In the name of the file. */
  readonly file: string
  /** How many pixels one of the drawing's units is. */
  readonly scale: number
  /** Whether there is room for one button alone. */
  readonly small?: boolean
}

/** Saves a drawing of what is looked up, for slides and pages; a lesson shows it and no more. */
export function SaveDrawing({ drawing, title, summary, file, scale, small = false }: Properties) {
  const embedded = useStore(isEmbedded)
  if (embedded) return null
  const picture = () =>
    drawing.current === null ? { svg: '', width: 0, height: 0 } : pictureOf(drawing.current, { title, summary }, scale)
  const named = (ending: string) => () => fileName([file], ending)
  return (
    <div class="tools">
      <Save name={say('export-svg')} content={() => picture().svg} type="image/svg+xml" file={named('svg')} />
      {!small && (
        <Save name={say('export-png')} content={() => pixelsOf(picture())} type="image/png" file={named('png')} />
      )}
    </div>
  )
}
