import { useState } from 'preact/hooks'
import type { Description, FieldDescription } from '../../generated/contract'
import { Segments, choices } from '../base/segments'
import { say } from '../base/words'
import { writePlace } from '../screen/link'
import { filling } from '../screen/shown'
import { useStore } from '../screen/store'
import { elementLines, frameLine, heightOf } from './embed-code'
import { EmbedLines } from './embed-lines'
import {
  chosenFor,
  keepChosen,
  LAYOUTS,
  choiceOf,
  USES,
  WORKINGS,
  type Chosen,
  type Use,
  type Uses,
} from './embed-chosen'

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
  const [chosen, setChosen] = useState(() => chosenFor(description.id))
  const choose = (change: Partial<Chosen>) => {
    const now = { ...chosen, ...change }
    setChosen(now)
    keepChosen(description.id, now)
  }
  const { uses, layout, working, theme, form } = chosen
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
  const used = (use: Use) => description.fields.map(({ id }) => id).filter(id => choiceOf(uses, id) === use)
  const embed = {
    open: layout === 'compact' ? used('open') : null,
    locked: used('locked'),
    hidden: used('hidden'),
    working: working === 'open',
    theme,
  }
  const write = form === 'frame' ? frameLine : elementLines
  const code = write(writePlace({ ...shown, embed }, settings), description.title, heightOf(embed))
  return (
    <div class="inside">
      <p class="hint">{say('embed-hint')}</p>
      <FieldUses
        description={description}
        active={id => active?.[id]?.active !== false}
        uses={uses}
        onChoose={uses => choose({ uses })}
      />
      <Segments
        name="layout"
        legend={say('embed-layout')}
        options={choices('embed-layout', LAYOUTS)}
        value={layout}
        onChoose={layout => choose({ layout })}
      />
      <p class="hint">{say(`embed-layout-${layout}-hint`, { height: `${heightOf(embed)}` })}</p>
      <Segments
        name="working"
        legend={say('working')}
        options={choices('embed-working', WORKINGS)}
        value={working}
        onChoose={working => choose({ working })}
      />
      <EmbedLines theme={theme} form={form} code={code} onChoose={choose} />
    </div>
  )
}

interface FieldUsesProperties {
  readonly description: Description
  /** Whether a field plays a part in what is filled in. */
  readonly active: (field: string) => boolean
  readonly uses: Uses
  readonly onChoose: (uses: Uses) => void
}

/** Each field hidden, shown or open, by one tap: all at once, those of the question, and then the others. */
function FieldUses({ description: { fields, first }, active, uses, onChoose }: FieldUsesProperties) {
  const options = choices('embed-use', USES)
  const shown = fields.filter(({ id }) => active(id))
  const others = shown.filter(({ id }) => !first.includes(id))
  const row = ({ id, name }: FieldDescription) => (
    <Segments
      key={id}
      name={`use-${id}`}
      legend={name}
      options={options}
      value={choiceOf(uses, id)}
      onChoose={use => onChoose({ ...uses, [id]: use })}
    />
  )
  return (
    <fieldset class="uses">
      <legend>{say('embed-fields')}</legend>
      <Segments
        name="use-all"
        legend={say('embed-all')}
        options={options}
        value={USES.find(use => shown.every(({ id }) => choiceOf(uses, id) === use)) ?? null}
        onChoose={use => onChoose(Object.fromEntries(fields.map(({ id }) => [id, use])))}
      />
      {shown.filter(({ id }) => first.includes(id)).map(row)}
      {others.length > 0 && (
        <details>
          <summary>{say('embed-others', { count: `${others.length}` })}</summary>
          <div class="others">{others.map(row)}</div>
        </details>
      )}
    </fieldset>
  )
}
