import { render } from 'preact'
import { useMemo } from 'preact/hooks'
import type { Diagram } from '../../generated/contract'
import { download, fileName } from '../base/download'
import { useSize } from '../base/size'
import { say } from '../base/words'
import { pictureOf, pixelsOf, type Picture } from '../plot/picture'
import { toField } from './to-field'
import { RigDrawing } from './drawing'
import { layOut } from './layout'
import type { Embed } from '../screen/embed'
import { rigInWords } from '../screen/rig-in-words'
import { filling } from '../screen/shown'
import { embedOf, useStore } from '../screen/store'

/** The letters of the picture against those of a plot. */
const LETTERS = 13 / 12
/** A finger needs so much, in pixels. */
const TOUCH = 44
/** The size of a picture that is saved, and of its letters, in pixels. */
const WIDTH = 1000
const SAVED = 14
/** On paper the symbols are smaller than on the screen. */
const DENSE = 1.6

/** What may be shown of a diagram: nothing that a lesson hides can be read off it. */
export function shownOf(diagram: Diagram | null, embed: Embed | null): Diagram | null {
  if (diagram === null || embed === null || embed.hidden.length === 0) return diagram
  if (diagram.shaped_by.some(field => embed.hidden.includes(field))) return null
  return {
    ...diagram,
    parts: diagram.parts.map(part => ({ ...part, values: [] })),
    loops: diagram.loops.map(loop => ({ ...loop, text: '' })),
  }
}

/** The rig as a line diagram whose parts lead to their fields. */
export function Rig() {
  const embed = useStore(embedOf)
  const whole = useStore(({ good }) => good?.report.diagram) ?? null
  const diagram = useMemo(() => shownOf(whole, embed), [whole, embed])
  const [ref, width, line] = useSize()
  const layout = useMemo(
    () => (diagram === null ? null : layOut(diagram, width, line * LETTERS, TOUCH)),
    [diagram, width, line],
  )
  if (diagram === null) return null
  const save = async (ending: 'svg' | 'png') => {
    const picture = saved(diagram)
    const [content, type] = ending === 'svg' ? [picture.svg, 'image/svg+xml'] : [await pixelsOf(picture), 'image/png']
    download(content, type, fileName([filling()?.calculator ?? '', 'rig'], ending))
  }
  return (
    <section class="rig" aria-labelledby="rig">
      <h2 id="rig">{diagram.title}</h2>
      <div class="picture" ref={ref}>
        {layout !== null && (
          <>
            <RigDrawing layout={layout} label={labelOf(diagram)} />
            {layout.parts.map(({ part, cell }) => (
              <Tap key={part.id} cell={cell} fields={part.fields} name={[part.name, ...part.values].join(', ')} />
            ))}
            {layout.loops.map(
              ({ earthLoop, cell }, index) =>
                cell.height > 0 && <Tap key={index} cell={cell} fields={earthLoop.fields} name={earthLoop.text} />,
            )}
          </>
        )}
      </div>
      <p class="hint">{[say('rig-hint'), diagram.note].join(' ')}</p>
      <div class="tools">
        <button type="button" class="chip" onClick={() => void save('svg')}>
          {say('export-svg')}
        </button>
        <button type="button" class="chip" onClick={() => void save('png')}>
          {say('export-png')}
        </button>
      </div>
    </section>
  )
}

interface TapProperties {
  readonly cell: { readonly x: number; readonly y: number; readonly width: number; readonly height: number }
  readonly fields: readonly string[]
  readonly name: string
}

/** What is tapped to get to the fields of a part. */
function Tap({ cell: { x, y, width, height }, fields, name }: TapProperties) {
  return (
    <button
      type="button"
      class="tap"
      aria-label={say('rig-part', { part: name })}
      style={{ left: `${x}px`, top: `${y}px`, width: `${width}px`, height: `${height}px` }}
      onClick={() => toField(fields)}
    />
  )
}

function labelOf({ summary, loops }: Diagram): string {
  return [summary, ...loops.map(({ text }) => text && `${text}.`)].filter(Boolean).join(' ')
}

function saved(diagram: Diagram): Picture {
  const place = document.createElement('div')
  place.className = 'picture'
  document.body.append(place)
  render(<RigDrawing layout={layOut(diagram, WIDTH, SAVED, 0)} label="" />, place)
  const svg = place.querySelector('svg')
  const picture =
    svg === null
      ? { svg: '', width: 0, height: 0 }
      : pictureOf(svg, { title: diagram.title, under: rigInWords(), summary: labelOf(diagram) })
  render(null, place)
  place.remove()
  return picture
}

interface PaperProperties {
  readonly diagram: Diagram | null
  readonly embed: Embed | null
  readonly width: number
  readonly letters: number
}

/** The same on paper. */
export function RigOnPaper({ diagram, embed, width, letters }: PaperProperties) {
  const shown = shownOf(diagram, embed)
  if (shown === null) return null
  return (
    <figure class="rig">
      <figcaption>{shown.title}</figcaption>
      <RigDrawing layout={layOut(shown, DENSE * width, DENSE * letters, 0)} label={labelOf(shown)} />
    </figure>
  )
}
