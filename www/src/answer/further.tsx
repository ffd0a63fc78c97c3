import { csvOf } from '../base/csv'
import { download, fileName } from '../base/download'
import { ReadingView } from './reading'
import { filling } from '../screen/shown'
import { useSeen, useSettled } from '../base/seen'
import { spreadOf } from '../plot/spread'
import { getState, useStore } from '../screen/store'
import { say } from '../base/words'

/** All readings as a table. */
function saveReadings(): void {
  const { good, settings } = getState()
  if (good === null) return
  const { headline, further, ranking } = good.report
  const rows = [...headline, ...further].map(({ name, text, exact, verdict }) => [
    name,
    ...(exact === null ? ['', text] : parted(exact)),
    verdict?.text ?? '',
  ])
  const ways = ranking.flatMap(({ name, verdict, reasons }) => [
    [name, '', '', verdict.text],
    ...reasons.map(({ reading }) => [
      `${name}: ${reading.name}`,
      ...parted(reading.exact ?? reading.text),
      reading.verdict?.text ?? '',
    ]),
  ])
  const head = ['name', 'value', 'unit', 'verdict'].map(key => say(`further-${key}`))
  download(
    csvOf([head, ...rows, ...ways], settings),
    'text/csv',
    fileName([filling()?.calculator ?? '', 'readings'], 'csv'),
  )
}

/** A printed number for a spreadsheet, and its unit beside it. */
function parted(text: string): [string, string] {
  const [, number = text, unit = ''] = /^([^\s\u00a0]+)[\s\u00a0]?(.*)$/.exec(text) ?? []
  return [number.replace('\u2212', '-'), unit]
}

/** What else was computed. */
export function Further() {
  const [ref, seen] = useSeen()
  const further = useSettled(
    useStore(({ good }) => good?.report.further),
    seen,
  )
  const spread = useStore(state => state.spread)
  const spreading = useStore(state => state.spreading)
  if (further === undefined || further.length === 0) return null
  return (
    <section class="further" aria-labelledby="further" ref={ref}>
      <h2 id="further">{say('further')}</h2>
      <dl data-spreading={spreading}>
        {further.map(reading => (
          <ReadingView key={reading.id} reading={reading} spread={spreadOf(spread, reading)} />
        ))}
      </dl>
      <div class="tools">
        <button type="button" class="chip" onClick={saveReadings}>
          {say('further-csv')}
        </button>
      </div>
    </section>
  )
}
