import { useEffect, useId, useState } from 'preact/hooks'
import type { Decimal, Dialect, InputLine, ReadLines, Separator, Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { getState, useStore } from '../../screen/store'
import { edit, useProject } from '../show/project'
import { appended, MOST_LINES } from './append'
import { firstLook, SEPARATORS } from './dialect'
import { DialectInput } from './dialect-input'
import { Preview } from './preview'

/** What was given to be read. */
interface Given {
  readonly text: string
  /** Of a file; what was pasted has none. */
  readonly file: string
  /** What is wrong with its letters. */
  readonly flaw: string
}

/** The pause after which a text that is typed is read. */
const PAUSE = 200

/** The input list from a table: a file or a text, read as the reader says, looked at, then taken. */
export function TableIn() {
  const [given, setGiven] = useState<Given | null>(null)
  const [separator, setSeparator] = useState<Separator>('comma')
  const [decimal, setDecimal] = useState<Decimal>('point')
  // What the reader said stays, whatever is pasted next; what was guessed does not.
  const [said, setSaid] = useState(false)
  const [told, tell] = useState('')
  const put = (next: Given) => {
    const look = firstLook(next.text)
    if (!said) {
      setSeparator(look.separator)
      setDecimal(look.decimal)
    }
    tell(next.file !== '' && next.text.trim() === '' ? say('stage-table-empty') : '')
    setGiven(next)
  }
  return (
    <>
      <Give given={given} onGiven={put} onRefused={() => tell(say('stage-table-unread'))} />
      {given !== null && given.text.trim() !== '' && (
        <>
          {given.flaw !== '' && <p class="problem">{given.flaw}</p>}
          <DialectInput
            separators={SEPARATORS}
            separator={separator}
            onSeparator={separator => {
              setSaid(true)
              setSeparator(separator)
            }}
            decimal={decimal}
            onDecimal={decimal => {
              setSaid(true)
              setDecimal(decimal)
            }}
          />
          <p class="hint">{say('stage-table-look')}</p>
          <Taken
            text={given.text}
            separator={separator}
            decimal={decimal}
            onTaken={what => {
              setGiven(null)
              setSaid(false)
              tell(what)
            }}
          />
        </>
      )}
      <p role="status">{told}</p>
    </>
  )
}

interface GiveProperties {
  readonly given: Given | null
  readonly onGiven: (given: Given) => void
  readonly onRefused: () => void
}

/** A file to be chosen, or a text to be pasted. */
function Give({ given, onGiven, onRefused }: GiveProperties) {
  const [file, text] = [useId(), useId()]
  const choose = async (input: HTMLInputElement) => {
    const [chosen] = input.files ?? []
    if (chosen === undefined) return
    try {
      const bytes = new Uint8Array(await chosen.arrayBuffer())
      const { text, flaw } = await askStage('stage_decode', bytes, getState().settings)
      onGiven({ text, file: chosen.name, flaw: flaw?.text ?? '' })
    } catch {
      onRefused()
    }
    // The same file may be chosen again, once it was changed.
    input.value = ''
  }
  return (
    <div class="give">
      <p class="hint">{say('stage-table-in-hint')}</p>
      <div class="stage-field">
        <label for={file}>{say('stage-table-file')}</label>
        <input
          id={file}
          type="file"
          accept=".csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain"
          onChange={event => void choose(event.currentTarget)}
        />
        {given !== null && given.file !== '' && <p class="hint">{given.file}</p>}
      </div>
      <div class="stage-field">
        <label for={text}>{say('stage-table-paste')}</label>
        <textarea
          id={text}
          rows={3}
          spellcheck={false}
          value={given === null || given.file !== '' ? '' : given.text}
          onInput={event => onGiven({ text: event.currentTarget.value, file: '', flaw: '' })}
        />
      </div>
    </div>
  )
}

interface TakenProperties {
  readonly text: string
  readonly separator: Separator
  readonly decimal: Decimal
  readonly onTaken: (what: string) => void
}

/** The table as it is read, and what becomes of it. */
function Taken({ text, separator, decimal, onTaken }: TakenProperties) {
  const show = useProject(project => project.show)
  const read = useRead(show, text, separator, decimal)
  if (read === null) return <p role="status">{say('stage-table-reading')}</p>
  const { lines, flaws } = read
  const room = Math.max(MOST_LINES - show.lines.length, 0)
  const take = (key: string, next: InputLine[], count: number) => {
    const what = say(key, { count: `${count}` })
    edit(what, draft => {
      draft.lines = next
    })
    onTaken(what)
  }
  return (
    <>
      <Preview show={show} lines={lines} flaws={flaws} />
      {room < lines.length && show.lines.length > 0 && (
        <p>{say('stage-table-room', { count: `${room}`, most: `${MOST_LINES}` })}</p>
      )}
      {lines.length > 0 && (
        <div class="tools">
          <button
            type="button"
            class="chip"
            disabled={room === 0}
            onClick={() => take('stage-table-appended', appended(show.lines, lines), Math.min(room, lines.length))}
          >
            {say('stage-table-append')}
          </button>
          <button type="button" class="chip" onClick={() => take('stage-table-replaced', lines, lines.length)}>
            {say('stage-table-replace')}
          </button>
        </div>
      )}
    </>
  )
}

/** A table as the engine reads it; nothing while it does. */
function useRead(show: Show, text: string, separator: Separator, decimal: Decimal): ReadLines | null {
  const settings = useStore(state => state.settings)
  const [read, setRead] = useState<ReadLines | null>(null)
  useEffect(() => {
    let current = true
    setRead(null)
    const dialect: Dialect = { separator, settings: { ...settings, decimal } }
    const timer = setTimeout(async () => {
      const lines = await askStage('stage_read_lines', show, text, dialect, settings)
      if (current) setRead(lines)
    }, PAUSE)
    return () => {
      current = false
      clearTimeout(timer)
    }
  }, [show, text, separator, decimal, settings])
  return read
}
