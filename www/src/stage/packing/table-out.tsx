import { useEffect, useMemo, useState } from 'preact/hooks'
import type { Decimal, Dialect, Separator, Show } from '../../../generated/contract'
import { Copy } from '../../base/copy'
import { fileName } from '../../base/download'
import { Save } from '../../base/save'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { useStore } from '../../screen/store'
import { useProject } from '../show/project'
import { DialectInput } from './dialect-input'

/** What a file of a table has between its cells; tabs are for the clipboard. */
const SAVED = ['comma', 'semicolon'] as const

/** The input list as a table, saved or copied. */
export function TableOut() {
  const own = useStore(({ settings }) => settings.decimal)
  const [decimal, setDecimal] = useState<Decimal>(own)
  const [separator, setSeparator] = useState<'comma' | 'semicolon'>(own === 'comma' ? 'semicolon' : 'comma')
  const file = useTable(separator, decimal)
  const tabs = useTable('tab', decimal)
  const none = useProject(({ show }) => show.lines.length === 0)
  if (none) return <p>{say('stage-no-lines')}</p>
  return (
    <>
      <DialectInput
        separators={SAVED}
        separator={separator}
        onSeparator={setSeparator}
        decimal={decimal}
        onDecimal={setDecimal}
      />
      {file !== null && tabs !== null && (
        <div class="tools">
          <Save
            name={say('stage-table-save')}
            // Without the mark some spreadsheets take the letters for others.
            content={() => `\ufeff${file}`}
            type="text/csv"
            file={() => fileName(['input-list'], 'csv')}
          />
          <Copy name={say('stage-table-copy')} text={() => tabs} />
        </div>
      )}
      <p class="hint">{say('stage-table-out-hint')}</p>
    </>
  )
}

/** The input list as a text; nothing until it is written like that. */
function useTable(separator: Separator, decimal: Decimal): string | null {
  const show = useProject(project => project.show)
  const settings = useStore(state => state.settings)
  const [written, setWritten] = useState<{ readonly asked: Dialect; readonly show: Show; readonly text: string }>()
  const asked = useMemo(() => ({ separator, settings: { ...settings, decimal } }), [separator, decimal, settings])
  useEffect(() => {
    let current = true
    askStage('stage_write_lines', show, asked).then(
      text => current && setWritten({ asked, show, text }),
      () => {},
    )
    return () => {
      current = false
    }
  }, [show, asked])
  return written?.asked === asked && written.show === show ? written.text : null
}
