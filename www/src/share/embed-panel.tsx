import { useState } from 'preact/hooks'
import type { Description, FieldDescription } from '../../generated/contract'
import { Copy } from '../base/copy'
import type { Embed } from '../screen/embed'
import { elementLines, frameLine } from './embed-code'
import { Segments, choices } from '../base/segments'
import { filling } from '../screen/shown'
import { THEMES } from '../screen/theme'
import { useStore } from '../screen/store'
import { say } from '../base/words'

const USES = ['open', 'locked', 'hidden'] as const
type Use = (typeof USES)[number]
/** What is to become of each field; one that is not named stays open. */
type Uses = Readonly<Record<string, Use>>
const FORMS = ['frame', 'element'] as const

/** Writes what puts this calculator, with these values, into the page of a lesson. */
export function EmbedPanel({ description }: { readonly description: Description }) {
  const [open, setOpen] = useState(false)
  return (
    <details class="embed" onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>
        <h3>{say('embed')}</h3>
      </summary>
      {open && <Author description={description} />}
    </details>
  )
}

function Author({ description }: { readonly description: Description }) {
  const [uses, setUses] = useState<Uses>({})
  const [working, setWorking] = useState(false)
  const [theme, setTheme] = useState<Embed['theme']>('system')
  const [form, setForm] = useState<(typeof FORMS)[number]>('frame')
  const settings = useStore(state => state.settings)
  // The code follows what is typed above it.
  useStore(({ place }) => place)
  const active = useStore(({ answer }) => answer?.fields)
  const good = useStore(state => state.good)
  const stale = useStore(({ answer }) => answer?.report === null)
  const now = filling()
  if (now === null) return null
  // What makes no sense is nothing to teach with.
  const shown = stale && good !== null ? { ...now, current: good.texts } : now
  const fields = description.fields.filter(({ id }) => active?.[id]?.active !== false)
  const used = (use: Use) => fields.map(({ id }) => id).filter(id => uses[id] === use)
  const embed = { locked: used('locked'), hidden: used('hidden'), working, theme }
  const write = form === 'frame' ? frameLine : elementLines
  const code = write(shown, embed, settings, description.title)
  return (
    <div class="inside">
      <p class="hint">{say('embed-hint')}</p>
      <Segments
        name="form"
        legend={say('embed-form')}
        options={choices('embed-form', FORMS)}
        value={form}
        onChoose={setForm}
      />
      <FieldUses fields={fields} uses={uses} onChoose={setUses} />
      <Segments
        name="working"
        legend={say('working')}
        options={choices('embed-working', ['closed', 'open'])}
        value={working ? 'open' : 'closed'}
        onChoose={id => setWorking(id === 'open')}
      />
      <Segments
        name="lesson-theme"
        legend={say('theme')}
        options={choices('theme', THEMES)}
        value={theme}
        onChoose={setTheme}
      />
      {location.protocol === 'file:' && <p class="hint">{say('embed-file')}</p>}
      <pre class="code">{code}</pre>
      <div class="tools">
        <Copy text={() => code} name={say('embed-copy')} />
      </div>
    </div>
  )
}

interface FieldUsesProperties {
  readonly fields: readonly FieldDescription[]
  readonly uses: Uses
  readonly onChoose: (uses: Uses) => void
}

/** Each field open, locked or hidden; all of them at once on top. */
function FieldUses({ fields, uses, onChoose }: FieldUsesProperties) {
  const chosenFor = ({ id }: FieldDescription) => uses[id] ?? 'open'
  return (
    <fieldset class="uses">
      <legend>{say('embed-fields')}</legend>
      <label>
        <span>{say('embed-all')}</span>
        <UseSelect
          value={USES.find(use => fields.every(field => chosenFor(field) === use)) ?? null}
          onChoose={use => onChoose(Object.fromEntries(fields.map(({ id }) => [id, use])))}
        />
      </label>
      {fields.map(field => (
        <label key={field.id}>
          <span>{field.name}</span>
          <UseSelect value={chosenFor(field)} onChoose={use => onChoose({ ...uses, [field.id]: use })} />
        </label>
      ))}
    </fieldset>
  )
}

interface UseProperties {
  /** Nothing where there are several. */
  readonly value: Use | null
  readonly onChoose: (use: Use) => void
}

function UseSelect({ value, onChoose }: UseProperties) {
  return (
    <select
      value={value ?? ''}
      onChange={event => onChoose(USES.find(use => use === event.currentTarget.value) ?? 'open')}
    >
      {value === null && <option value="">{say('embed-several')}</option>}
      {USES.map(use => (
        <option key={use} value={use}>
          {say(`embed-use-${use}`)}
        </option>
      ))}
    </select>
  )
}
