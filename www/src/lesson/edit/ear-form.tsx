import type { EarSource } from '../../../generated/contract'
import { choices, Segments } from '../../base/segments'
import { say } from '../../base/words'
import { Checks, NumberInput } from './inputs'
import { Named, numbersOf } from './kind-forms'
import type { Formed } from './step-form'

const SOURCES = ['bass', 'guitar', 'keys', 'speech'] as const
const LEVELS = ['matched', 'as-it-is'] as const

/** Two rigs, and how X is heard and named. */
export function EarForm({ step, offers, put }: Formed) {
  const ways = [0, 1].map(at => step.ways?.[at] ?? { name: '', values: {} })
  return (
    <>
      {ways.map((way, at) => (
        <fieldset class="edit-rows" key={at}>
          <legend>{say(`lesson-ear-letter-${at === 0 ? 'a' : 'b'}`)}</legend>
          <Named
            one={way}
            put={one => put({ ways: ways.map((other, place) => (place === at ? one : other)) }, `ways ${at}`)}
            offers={offers}
            name={say('lesson-edit-ear-name')}
          />
        </fieldset>
      ))}
      <Segments
        name="edit-ear-source"
        legend={say('lesson-edit-ear-source')}
        options={choices('lesson-ear-source', SOURCES)}
        value={step.source ?? 'bass'}
        onChoose={(source: EarSource) => put({ source }, null)}
      />
      <Segments
        name="edit-ear-level"
        legend={say('lesson-edit-ear-level')}
        options={choices('lesson-edit-ear-level', LEVELS)}
        value={step.as_it_is === true ? 'as-it-is' : 'matched'}
        onChoose={level => put({ as_it_is: level === 'as-it-is' }, null)}
      />
      <div class="edit-row">
        <NumberInput
          name={say('lesson-edit-ear-trials')}
          hint={say('lesson-edit-ear-trials-hint')}
          value={step.trials}
          onChange={trials => put({ trials })}
        />
        <NumberInput
          name={say('lesson-edit-ear-enough')}
          hint={say('lesson-edit-ear-enough-hint')}
          value={step.enough}
          onChange={enough => put({ enough })}
        />
      </div>
      <Checks
        name={say('lesson-edit-ear-measures')}
        among={numbersOf({ offers })}
        chosen={step.measures ?? []}
        onChange={measures => put({ measures }, null)}
      />
    </>
  )
}
