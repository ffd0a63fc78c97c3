import { useMemo } from 'preact/hooks'
import type { Settings } from '../../../generated/contract'
import { say } from '../../base/words'
import { answer } from '../../engine/engine'
import { descriptionOf } from '../../screen/descriptions'
import { TextInput } from './inputs'
import { edit, useProject } from './project'

const CALCULATOR = 'whole-line'
/** One of the limits, which stand in one group. */
const ONE = 'snr_least'
/** The texts of a show are written under these settings, whatever the reader's are. */
const SETTINGS: Settings = { decimal: 'point', length: 'metre', mains: '50', language: 'en' }

/** What every line of the show is held to: the limits of the whole-line calculator. */
export function Limits() {
  const limits = useProject(({ show }) => show.limits)
  const problems = useMemo(() => problemsOf(limits), [limits])
  const all = descriptionOf(CALCULATOR, SETTINGS)?.fields ?? []
  const limit = all.find(({ id }) => id === ONE)
  const fields = all.filter(({ group, number }) => group === limit?.group && number !== null)
  return (
    <fieldset class="show-limits">
      <legend>{say('stage-limits')}</legend>
      <p class="hint">{say('stage-limits-hint')}</p>
      {fields.map(({ id, name, number }) => (
        <TextInput
          key={id}
          label={name}
          value={limits[id] ?? ''}
          hint={number?.default_text ?? ''}
          problem={problems.get(id)}
          onText={text => put(id, name, text)}
        />
      ))}
    </fieldset>
  )
}

function put(id: string, name: string, text: string): void {
  edit(
    say('stage-step-limit', { name }),
    draft => {
      if (text === '') delete draft.limits[id]
      else draft.limits[id] = text
    },
    `limit ${id}`,
  )
}

/** What the calculator says of these texts, by field. */
function problemsOf(limits: Record<string, string>): ReadonlyMap<string, string> {
  const { fields } = answer({
    calculator: CALCULATOR,
    values: limits,
    settings: SETTINGS,
    working: false,
    brief: true,
    backwards: null,
    cures: false,
    tolerances: null,
  })
  const told = Object.entries(fields).flatMap(([id, field]) => {
    const message = field.problem?.message
    return message === undefined ? [] : [[id, message] as const]
  })
  return new Map(told)
}
