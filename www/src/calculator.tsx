import type { Description } from '../generated/contract'
import { Answer } from './answer/answer'
import { Fixed } from './fields/fixed'
import { Intro } from './intro'
import { WholePage } from './header'
import { isFixed } from './screen/embed'
import { Pin } from './start/pin'
import { Presets } from './fields/presets'
import { Question } from './fields/question'
import { Steps } from './fields/steps'
import { embedOf, useStore } from './screen/store'
import { Fields } from './fields/fields'
import { Missing } from './base/missing'
import type { Later } from './use-more'

interface Properties {
  readonly description: Description
  /** What comes after the first answer. */
  readonly later: Later
}

/** The screen of a calculator. */
export function Calculator({ description, later }: Properties) {
  const { more } = later
  const answered = useStore(({ good }) => good !== null)
  const embed = useStore(embedOf)
  const wrong = useStore(({ answer }) => description.fields.find(({ id }) => answer?.fields[id]?.problem)?.id)
  // What is hidden and makes no sense is shown, or nobody could mend it.
  const fields = description.fields.filter(({ id }) => !embed?.hidden.includes(id) || id === wrong)
  if (embed?.open)
    return more === null ? <Missing later={later} /> : <more.Compact description={description} embed={embed} />
  const first = description.first.flatMap(id => fields.find(field => field.id === id) ?? [])
  const fixed = description.fields.every(({ id, number }) => number === null || isFixed(embed, id))
  const seen = more === null ? null : <more.Seen description={description} />
  return (
    <article class="calculator" data-calculator={description.id} data-fixed={fixed}>
      <Intro description={description}>{embed === null ? <Pin calculator={description.id} /> : <WholePage />}</Intro>
      <Question fields={first} />
      {answered && embed === null && more !== null && <more.Glance />}
      <Answer description={description}>{more !== null && <more.Asked description={description} />}</Answer>
      {/* A lesson says what to move, and is to be watched while it is moved. */}
      {answered && embed !== null && <div class="rest">{seen}</div>}
      <div class="inputs">
        {embed !== null && <Fixed embed={embed} description={description} />}
        <Presets presets={embed === null ? description.presets : []} fixed={fixed} />
        {embed !== null && !fixed && <Steps always />}
        <Fields fields={fields.filter(field => !first.includes(field))} />
        {embed === null && more !== null && <more.KeepRig calculator={description.id} />}
      </div>
      {answered && (
        <div class="rest">
          {embed === null && seen}
          {more === null ? <Missing later={later} /> : <more.Rest description={description} />}
        </div>
      )}
    </article>
  )
}
