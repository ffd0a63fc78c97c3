import { Copy } from '../base/copy'
import { Segments, choices } from '../base/segments'
import { say } from '../base/words'
import { THEMES, type Theme } from '../screen/theme'
import { FORMS, type Form } from './embed-code'

interface Chosen {
  readonly theme: Theme
  readonly form: Form
}

interface Properties extends Chosen {
  readonly code: string
  readonly onChoose: (change: Partial<Chosen>) => void
}

/** What every frame has to be told, and its code, to be looked at and copied. */
export function EmbedLines({ theme, form, code, onChoose }: Properties) {
  return (
    <>
      <Segments
        name="lesson-theme"
        legend={say('theme')}
        options={choices('theme', THEMES)}
        value={theme}
        onChoose={theme => onChoose({ theme })}
      />
      <Segments
        name="form"
        legend={say('embed-form')}
        options={choices('embed-form', FORMS)}
        value={form}
        onChoose={form => onChoose({ form })}
      />
      {location.protocol === 'file:' && <p class="hint">{say('embed-file')}</p>}
      <pre class="code">{code}</pre>
      <div class="tools">
        <Copy text={() => code} name={say('embed-copy')} />
      </div>
    </>
  )
}
