import { say } from '../../base/words'
import { descriptionOf } from '../../screen/descriptions'
import { useStore } from '../../screen/store'
import { edit, useProject } from './project'
import { QuantityInput } from './quantity-input'
import { useEchoes, WHOLE_LINE } from './values'

/** One of the limits, which stand in one group. */
const ONE = 'snr_least'

/** What every line of the show is held to: the limits of the whole-line calculator. */
export function Limits() {
  const limits = useProject(({ show }) => show.limits)
  const settings = useStore(state => state.settings)
  const echoes = useEchoes(limits)
  const all = descriptionOf(WHOLE_LINE, settings)?.fields ?? []
  const limit = all.find(({ id }) => id === ONE)
  const fields = all.filter(({ group, number }) => group === limit?.group && number !== null)
  return (
    <details class="show-limits">
      <summary>{say('stage-limits')}</summary>
      <p class="hint">{say('stage-limits-hint')}</p>
      {fields.map(({ id, name, number }) => (
        <QuantityInput
          key={id}
          label={name}
          field={id}
          texts={limits}
          echo={echoes?.[id]}
          hint={number?.default_text ?? ''}
          onText={text => put(id, name, text)}
        />
      ))}
    </details>
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
