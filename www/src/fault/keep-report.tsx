import { render } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import { Copy } from '../base/copy'
import { fileName } from '../base/download'
import { Save } from '../base/save'
import { say } from '../base/words'
import { whole } from '../screen/address'
import { writeFault } from '../screen/link'
import { getState, isEmbedded } from '../screen/store'
import { QrCode } from '../share/qr'
import { printOut } from '../share/print-out'
import { writeSearch } from './address'
import { reportOf, textOf, type Report } from './report'
import type { Told } from './use-answer'

/** The report to keep: as text, on paper, as a link. */
export function KeepReport({ told }: { readonly told: Told }) {
  const [refused, setRefused] = useState(false)
  const link = () => (isEmbedded(getState()) ? '' : whole(writeFault(writeSearch({ ...told.search, spare: [] }))))
  const report = () => reportOf(told, link())
  usePaper(report)
  return (
    <section class="fault-report" aria-labelledby="fault-report">
      <h2 id="fault-report">{say('fault-report')}</h2>
      <div class="tools">
        <Copy text={() => textOf(report())} name={say('fault-report-copy')} />
        <Save
          name={say('fault-report-save')}
          content={() => textOf(report())}
          type="text/plain"
          file={() => fileName(['fault'], 'txt')}
        />
        <button type="button" class="chip" onClick={() => setRefused(!printOut())}>
          {say('fault-report-print')}
        </button>
        <Copy text={link} name={say('share-copy')} />
        <QrCode link={link} />
        <span role="status">{refused && say('print-refused')}</span>
      </div>
    </section>
  )
}

/** Has the printer get the report in place of the screen, whoever asks it to print. */
function usePaper(report: () => Report): void {
  const newest = useRef(report)
  newest.current = report
  useEffect(() => {
    const paper = document.createElement('div')
    paper.id = 'paper'
    const begin = () => {
      // Something else may be printed.
      if (document.getElementById('paper') !== null) return
      render(<Paper report={newest.current()} />, paper)
      document.body.append(paper)
    }
    const end = () => {
      render(null, paper)
      paper.remove()
    }
    addEventListener('beforeprint', begin)
    addEventListener('afterprint', end)
    return () => {
      end()
      removeEventListener('beforeprint', begin)
      removeEventListener('afterprint', end)
    }
  }, [])
}

function Paper({ report: { title, head, done, odds, found, foot } }: { readonly report: Report }) {
  return (
    <article class="fault-paper">
      <header>
        <h1>{title}</h1>
      </header>
      {head.map(text => (
        <p key={text}>{text}</p>
      ))}
      {found.length > 0 && <h2>{say('fault-report-result')}</h2>}
      {found.map(text => (
        <p key={text}>{text}</p>
      ))}
      {done.length > 0 && <h2>{say('fault-answers')}</h2>}
      <ol>
        {done.map(text => (
          <li key={text}>{text}</li>
        ))}
      </ol>
      <h2>{say('fault-odds')}</h2>
      <ul>
        {odds.map(text => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      {foot.map(text => (
        <p key={text} class="hint">
          {text}
        </p>
      ))}
    </article>
  )
}
