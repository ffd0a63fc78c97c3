import type { FieldDescription, Gear } from '../../../generated/contract'
import { say } from '../../base/words'
import { descriptionOf, shownDescription } from '../../screen/descriptions'
import { putTexts } from '../../screen/screen'
import { useStore } from '../../screen/store'
import { useProject } from '../show/project'
import { forReader, WHOLE_LINE, type Texts } from '../show/values'
import { textsFor } from './offers'

interface Offer {
  readonly gear: Gear
  readonly texts: Texts
}

/** Fills a field of a calculator, and what belongs to it, from the gear in the drawer. */
export function FromGear({ field }: { readonly field: FieldDescription }) {
  const gear = useProject(({ show }) => show.gear)
  const description = useStore(shownDescription)
  const settings = useStore(state => state.settings)
  const line = useStore(({ settings }) => descriptionOf(WHOLE_LINE, settings))
  const current = useStore(({ place }) =>
    place.kind === 'calculator' && place.filling.embed === null ? place.filling.current : null,
  )
  if (description === undefined || line === undefined || current === null) return null
  const offers = gear.flatMap((gear): Offer[] => {
    const texts = textsFor(gear, description, field.id, line)
    return texts === null ? [] : [{ gear, texts }]
  })
  if (offers.length === 0) return null
  const read = ({ texts }: Offer) => forReader(texts, settings, description.id)
  // As long as nothing of it was changed since.
  const from = offers.find(offer => Object.entries(read(offer)).every(([id, text]) => current[id] === text))
  return (
    <select
      class="from-gear"
      aria-label={say('stage-from-gear-named', { field: field.name })}
      value={from?.gear.id ?? ''}
      onChange={event => {
        const chosen = offers.find(({ gear }) => gear.id === event.currentTarget.value)
        if (chosen !== undefined) putTexts(read(chosen))
      }}
    >
      <option value="">{say('stage-from-gear')}</option>
      {offers.map(({ gear: { id, name } }) => (
        <option key={id} value={id}>
          {name === '' ? say('stage-gear-unnamed') : name}
        </option>
      ))}
    </select>
  )
}
