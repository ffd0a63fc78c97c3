import type { Plot } from '../generated/contract'
import { Copy } from './copy'
import { csvOf, type Cell } from './csv'
import type { Curve } from './curves'
import { download, fileName } from './download'
import type { Frame } from './frame'
import { escape } from './lesson-writing'
import { address, pictureOf, pixelsOf } from './picture'
import { currentHash, filling } from './screen'
import { getState } from './store'
import { heightAt } from './trace'
import { toPrinted, type Printing } from './unit'
import { say } from './words'

interface Properties {
  readonly plot: Plot
  readonly curves: readonly Curve[]
  readonly frame: Frame
}

/** A plot for slides, spreadsheets and pages. */
export function Take({ plot, curves, frame }: Properties) {
  const picture = () => {
    const drawn = document.querySelector<SVGSVGElement>(`[data-plot="${CSS.escape(plot.id)}"] .picture svg`)
    return drawn === null ? null : pictureOf(drawn, plot.title, plot.summary)
  }
  const save = (content: BlobPart, type: string, ending: string) =>
    download(content, type, fileName([filling()?.calculator ?? '', plot.id], ending))
  const saveSvg = () => {
    const drawn = picture()
    if (drawn !== null) save(drawn.svg, 'image/svg+xml', 'svg')
  }
  const savePng = async () => {
    const drawn = picture()
    if (drawn !== null) save(await pixelsOf(drawn), 'image/png', 'png')
  }
  const saveCsv = () => save(csvOf(rowsOf({ plot, curves, frame }), getState().settings), 'text/csv', 'csv')
  const figure = () => figureOf(picture()?.svg ?? '', plot)
  return (
    <details class="take">
      <summary>{say('take')}</summary>
      <div class="tools">
        <button type="button" class="chip" onClick={saveSvg}>
          {say('take-svg')}
        </button>
        <button type="button" class="chip" onClick={savePng}>
          {say('take-png')}
        </button>
        <button type="button" class="chip" onClick={saveCsv}>
          {say('take-csv')}
        </button>
        <Copy text={figure} name={say('take-figure')} />
      </div>
      {location.protocol === 'file:' && <p class="hint">{say('take-file')}</p>}
    </details>
  )
}

/** All points of the curves, each column with its unit in the head. */
function rowsOf({ plot, curves, frame }: Properties): Cell[][] {
  const { xPrinting, yPrinting } = frame
  const head = (name: string, { symbol }: Printing) => (symbol === '' ? name : `${name} (${symbol})`)
  const names = curves.map(({ lines, trace }) => (lines.length > 0 ? lines.join(', ') : trace.id))
  // Curves have points of their own, such as their ends.
  const along = [...new Set(curves.flatMap(({ trace }) => trace.x))].sort((a, b) => a - b)
  return [
    [head(plot.x.name, xPrinting), ...names.map(name => head(name, yPrinting))],
    ...along.map(x => [
      plot.x.names.length > 0 ? frame.where(x) : toPrinted(x, xPrinting),
      ...curves.map(({ trace }) => toPrinted(heightAt(trace, x, plot.x), yPrinting)),
    ]),
  ]
}

/** For pages that allow neither scripts nor frames: a picture, and the link to what drew it. */
function figureOf(svg: string, { title, summary }: Plot): string {
  const link = location.href.replace(/#.*/, '') + currentHash()
  return [
    '<figure>',
    `<img src="${escape(address(svg))}" alt="${escape(`${title}. ${summary}`)}" style="max-width: 100%; height: auto">`,
    `<figcaption><a href="${escape(link)}">${escape(title)}</a></figcaption>`,
    '</figure>',
  ].join('\n')
}
