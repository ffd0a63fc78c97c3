import { useState } from 'preact/hooks'
import { say } from '../../base/words'
import { Segments } from '../../base/segments'
import { openLesson, newSeed, type LessonState } from '../lesson-state'
import { isCount, keepClassSize, MOST } from './class-size'

interface Properties {
  readonly state: LessonState
  /** 1 for one sheet. */
  readonly count: number
  readonly onCount: (count: number) => void
}

const MOST_SEED = 2 ** 32 - 1
/** A class has so many before somebody says how many. */
const USUAL = 12

/** By which numbers the sheets are dealt: one, or those of a class. */
export function Seeds({ state, count, onCount }: Properties) {
  const [usual, setUsual] = useState(count > 1 ? count : USUAL)
  const choose = (next: number) => {
    keepClassSize(next)
    onCount(next)
  }
  const deal = (seed: number) => void openLesson({ what: state.what, seed, step: null }, state)
  return (
    <div class="lesson-seeds">
      <Segments
        name="seeds"
        legend={say('lesson-seeds')}
        options={[
          { id: 'one', name: say('lesson-seeds-one') },
          { id: 'class', name: say('lesson-seeds-class') },
        ]}
        value={count === 1 ? 'one' : 'class'}
        onChoose={id => choose(id === 'one' ? 1 : usual)}
      />
      {count > 1 && (
        <Whole
          name={say('lesson-class-size')}
          least={2}
          most={MOST}
          value={count}
          onValue={next => {
            if (!isCount(next)) return
            setUsual(next)
            choose(next)
          }}
        />
      )}
      <Whole
        name={say(count === 1 ? 'lesson-seed-one' : 'lesson-seed-first')}
        least={0}
        most={MOST_SEED}
        value={state.seed}
        onValue={deal}
      />
      <button type="button" class="chip" onClick={() => deal(newSeed())}>
        {say('lesson-other-values')}
      </button>
    </div>
  )
}

interface WholeProperties {
  readonly name: string
  readonly least: number
  readonly most: number
  readonly value: number
  readonly onValue: (value: number) => void
}

/** A whole number, which counts once it is left, and only where it lies within its bounds. */
function Whole({ name, least, most, value, onValue }: WholeProperties) {
  // What is being typed outlasts the sheets that come meanwhile.
  const [typed, setTyped] = useState<string | null>(null)
  return (
    <label class="lesson-whole-number">
      <span>{name}</span>
      <input
        type="number"
        min={least}
        max={most}
        step={1}
        value={typed ?? value}
        onInput={event => setTyped(event.currentTarget.value)}
        onChange={event => {
          const next = event.currentTarget.valueAsNumber
          setTyped(null)
          if (next !== value && Number.isInteger(next) && next >= least && next <= most) onValue(next)
        }}
      />
    </label>
  )
}
