import { useEffect, useId, useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { Measured } from '../../generated/contract'
import { say } from '../base/words'
import { askStage } from '../engine/stage'
import { getState, useStore } from '../screen/store'
import { readingOf } from './bench'
import { bound } from './bound'
import { respond, type LessonState } from './lesson-state'
import type { Asked } from './step'
import { namedIn } from './told-in'

/** What is wrong with a rig: measured reading by reading, then named. */
export function FaultAnswer(asked: Asked) {
  const { state, step, dealt, response } = asked
  const group = useId()
  return (
    <div class="lesson-fault">
      <Measurements {...asked} />
      <fieldset>
        <legend>{say('lesson-fault-name')}</legend>
        <div class="choices">
          {dealt.cases.map(place => (
            <label key={place}>
              <input
                type="radio"
                name={group}
                checked={response.case === place}
                onChange={() => respond({ case: place })}
              />
              <span lang={namedIn(state, step, 'cases', place)}>{bound(step.cases[place]?.name ?? '')}</span>
            </label>
          ))}
        </div>
      </fieldset>
    </div>
  )
}

function Measurements({ state, at, step, bench, response: { measured } }: Asked) {
  const read = useMeasured(state, at, measured)
  const table = useRef<HTMLTableElement>(null)
  const asked = useRef('')
  useLayoutEffect(() => {
    if (!read.some(({ reading }) => reading === asked.current)) return
    // The button went, and its focus with it: it goes to what stands in its place.
    if (document.activeElement === document.body) {
      table.current?.querySelector<HTMLElement>(`[data-reading="${CSS.escape(asked.current)}"] [tabindex]`)?.focus()
    }
    asked.current = ''
  }, [read])
  return (
    <table class="lesson-measures" ref={table}>
      <caption class="unseen">{say('lesson-measures')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('lesson-measure-reading')}</th>
          <th scope="col">{say('lesson-measure-is')}</th>
          <th scope="col">{say('lesson-measure-usual')}</th>
        </tr>
      </thead>
      <tbody aria-live="polite">
        {step.measures.map(id => {
          const name = readingOf(bench, id)?.name ?? id
          const one = read.find(({ reading }) => reading === id)
          return (
            <tr key={id} data-reading={id}>
              <th scope="row">{name}</th>
              {one === undefined ? (
                <td colSpan={2}>
                  <button
                    type="button"
                    class="chip"
                    aria-label={say('lesson-measure-one', { reading: name })}
                    onClick={() => {
                      asked.current = id
                      if (!measured.includes(id)) respond({ measured: [...measured, id] })
                    }}
                  >
                    {say('lesson-measure')}
                  </button>
                </td>
              ) : (
                <>
                  <td tabIndex={-1} data-differs={one.text !== one.usual}>
                    <strong>{one.text}</strong>
                  </td>
                  <td>{one.usual}</td>
                </>
              )}
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}

/** What the readings say that were measured. */
function useMeasured({ lesson, seed }: LessonState, at: number, measured: readonly string[]): readonly Measured[] {
  const settings = useStore(state => state.settings)
  const [read, setRead] = useState<readonly Measured[]>([])
  useEffect(() => {
    let isNewest = true
    const asked = measured.map(id => askStage('lesson_measure', lesson, seed, at, id, getState().settings))
    Promise.all(asked).then(
      read => isNewest && setRead(read.filter(one => one !== null)),
      // What cannot be measured stays to be measured.
      () => undefined,
    )
    return () => {
      isNewest = false
    }
  }, [lesson, seed, at, measured, settings])
  return read
}
