import { useState } from 'preact/hooks'
import type { Plot } from '../../generated/contract'
import type { Curve } from './curves'
import type { Frame } from './frame'
import { rangeAt, type Range } from './spread'
import { useStore } from '../screen/store'
import { heightAt, isUpright } from './trace'
import { print } from '../base/unit'
import { Wide } from '../base/wide'
import { say } from '../base/words'

interface Properties {
  readonly plot: Plot
  readonly curves: readonly Curve[]
  readonly frame: Frame
  readonly ranges: readonly Range[]
}

/** The numbers of a plot as a table. */
export function Numbers({ plot, curves, frame, ranges }: Properties) {
  const [open, setOpen] = useState(false)
  return (
    <details class="numbers" onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>{say('numbers')}</summary>
      {open && <Table plot={plot} curves={curves} frame={frame} ranges={ranges} />}
    </details>
  )
}

function Table({ plot, curves: drawn, frame, ranges }: Properties) {
  const curves = drawn.filter(({ trace }) => !isUpright(trace))
  const settings = useStore(state => state.settings)
  return (
    <Wide name={say('numbers-of', { plot: plot.title })}>
      <table>
        <caption class="unseen">{say('numbers-of', { plot: plot.title })}</caption>
        <thead>
          <tr>
            <th scope="col">{plot.x.name}</th>
            {curves.map(({ key, lines }) => (
              <th key={key} scope="col">
                {lines.join(', ')}
              </th>
            ))}
            {ranges.map(({ key, name }) => (
              <th key={key} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {plot.stops.map(stop => (
            <tr key={stop}>
              <th scope="row">{frame.where(stop)}</th>
              {curves.map(({ key, trace }) => (
                <td key={key}>{print(heightAt(trace, stop, plot.x), frame.yPrinting, settings)}</td>
              ))}
              {ranges.map(range => (
                <td key={range.key}>{rangeAt(range, stop, plot.x, frame.yPrinting, settings)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  )
}
