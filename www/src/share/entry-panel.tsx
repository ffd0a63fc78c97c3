import { useState } from 'preact/hooks'
import { say } from '../base/words'
import { writeEntry } from '../screen/link'
import type { Theme } from '../screen/theme'
import { elementLines, frameLine, heightOf, type Form } from './embed-code'
import { EmbedLines } from './embed-lines'

interface Properties {
  readonly id: string
  readonly title: string
}

/** Writes what puts this entry into the page of a lesson. */
export function EntryPanel({ id, title }: Properties) {
  const [open, setOpen] = useState(false)
  const [chosen, setChosen] = useState<{ readonly theme: Theme; readonly form: Form }>({
    theme: 'system',
    form: 'frame',
  })
  const { theme, form } = chosen
  const embed = { open: null, locked: [], hidden: [], working: false, theme }
  const write = form === 'frame' ? frameLine : elementLines
  return (
    <details class="embed" onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>
        <h3>{say('embed')}</h3>
      </summary>
      {open && (
        <div class="inside">
          <p class="hint">{say('embed-entry-hint')}</p>
          <EmbedLines
            {...chosen}
            code={write(writeEntry(id, embed), title, heightOf(embed))}
            onChoose={change => setChosen({ ...chosen, ...change })}
          />
        </div>
      )}
    </details>
  )
}
