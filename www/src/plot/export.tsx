import { render } from 'preact'
import type { Axis, Plot } from '../../generated/contract'
import { whole } from '../screen/address'
import { Copy } from '../base/copy'
import { csvOf, type Cell } from '../base/csv'
import type { Curve } from './curves'
import { fileName } from '../base/download'
import { Save } from '../base/save'
import { FixedDrawing } from './drawing'
import type { Frame, Framed } from './frame'
import { mayTell } from '../screen/embed'
import { escape } from '../share/embed-code'
import { address, pictureOf, pixelsOf, type Picture, type Said } from './picture'
import { rigInWords } from '../screen/rig-in-words'
import { currentHash, filling } from '../screen/shown'
import type { Range } from './spread'
import { embedOf, getState } from '../screen/store'
import { heightAt } from './trace'
import { printing, toPrinted, type Printing } from '../base/unit'
import { say } from '../base/words'

interface Properties {
  readonly plot: Plot
  readonly curves: readonly Curve[]
  readonly others: readonly Framed[]
  readonly ranges: readonly Range[]
}

/** The width of a picture, and the height of a line of its text, in pixels. */
const WIDTH = 800
const LINE = 15

/** A plot for slides, spreadsheets and pages. */
export function Export({ plot, curves, others, ranges, frame }: Properties & { readonly frame: Frame }) {
  const picture = () => drawn({ plot, curves, others, ranges })
  const file = (ending: string) => () => fileName([filling()?.calculator ?? '', plot.id], ending)
  const csv = () => csvOf(rowsOf({ plot, curves, ranges }, frame), getState().settings)
  const figure = () => figureOf(picture().svg, plot)
  return (
    <details class="export">
      <summary>{say('export')}</summary>
      <div class="tools">
        <Save name={say('export-svg')} content={() => picture().svg} type="image/svg+xml" file={file('svg')} />
        <Save name={say('export-png')} content={() => pixelsOf(picture())} type="image/png" file={file('png')} />
        <Save name={say('export-csv')} content={csv} type="text/csv" file={file('csv')} />
        <Copy text={figure} name={say('export-figure')} />
      </div>
      {location.protocol === 'file:' && <p class="hint">{say('export-file')}</p>}
    </details>
  )
}

/** The plot as a picture of the same size on every screen. */
function drawn({ plot, curves, others, ranges }: Properties): Picture {
  const place = document.createElement('div')
  place.className = 'picture'
  document.body.append(place)
  render(
    <FixedDrawing
      plot={plot}
      curves={curves}
      others={others}
      ranges={ranges}
      width={WIDTH}
      line={LINE}
      settings={getState().settings}
      id="picture"
      label={plot.summary}
    />,
    place,
  )
  const svg = place.querySelector('svg')
  const picture = svg === null ? { svg: '', width: 0, height: 0 } : pictureOf(svg, saidOf(plot))
  render(null, place)
  place.remove()
  return picture
}

function saidOf({ title, summary }: Plot): Said {
  return { title, under: rigInWords(), summary }
}

/** All points of the curves, each column with its unit in the head. */
function rowsOf({ plot, curves, ranges }: Omit<Properties, 'others'>, frame: Frame): Cell[][] {
  const { settings } = getState()
  // Without the prefix of an axis, which may be another one with the next values.
  const of = ({ unit, symbol }: Axis) => printing(unit, symbol, settings)
  const [xPrinting, yPrinting] = [of(plot.x), of(plot.y)]
  const head = (name: string, { symbol }: Printing) => (symbol === '' ? name : `${name} (${symbol})`)
  const names = curves.map(({ lines, trace }) => (lines.length > 0 ? lines.join(', ') : trace.id))
  // Curves have points of their own, such as their ends.
  const points = plot.x.discrete ? plot.stops : curves.flatMap(({ trace }) => trace.x)
  const along = [...new Set(points)].sort((a, b) => a - b)
  return [
    [
      head(plot.x.name, xPrinting),
      ...names.map(name => head(name, yPrinting)),
      ...ranges.flatMap(({ name }) =>
        ['export-low', 'export-high'].map(key => head(`${name}, ${say(key)}`, yPrinting)),
      ),
    ],
    ...along.map(x => [
      plot.x.names.length > 0 ? frame.where(x) : toPrinted(x, xPrinting),
      ...[...curves.map(({ trace }) => trace), ...ranges.flatMap(({ low, high }) => [low, high])].map(trace =>
        toPrinted(heightAt(trace, x, plot.x), yPrinting),
      ),
    ]),
  ]
}

/** For pages that allow neither scripts nor frames: a picture, and the link to what drew it. */
function figureOf(svg: string, { title, summary }: Plot): string {
  const rig = rigInWords()
  const name = escape(title)
  const of = rig.length > 0 ? `. ${escape(rig.join('. '))}` : ''
  const linked = `<a href="${escape(whole(currentHash()))}">${name}</a>`
  return [
    '<figure>',
    `<img src="${escape(address(svg))}" alt="${escape([title, ...rig, summary].join('. '))}" style="max-width: 100%; height: auto">`,
    `<figcaption>${mayTell(embedOf(getState())) ? linked : name}${of}</figcaption>`,
    '</figure>',
  ].join('\n')
}
