import { say } from '../../base/words'
import { descriptionOf } from '../../screen/descriptions'
import { DEFAULTS } from '../../screen/settings'
import { TextInput } from './inputs'
import { edit, useProject } from './project'

/** One of the limits, which stand in one group. */
const ONE = 'snr_least'

/** What every line of the show is held to: the limits of the whole-line calculator. */
export function Limits() {
  const limits = useProject(({ show }) => show.limits)
  // The texts of a show are written under these settings, whatever the reader's are.
  const all = descriptionOf('whole-line', DEFAULTS)?.fields ?? []
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
          where={{ list: 'limits', place: null, field: id }}
          onText={text =>
            edit(
              say('stage-step-limit', { name }),
              draft => {
                if (text === '') delete draft.limits[id]
                else draft.limits[id] = text
              },
              `limit ${id}`,
            )
          }
        />
      ))}
    </fieldset>
  )
}
