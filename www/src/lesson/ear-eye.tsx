import { useEffect, useId, useState } from 'preact/hooks'
import type { EarEye, EarEyeRow, LessonStep } from '../../generated/contract'
import { say } from '../base/words'
import { askStage } from '../engine/stage'
import { useStore } from '../screen/store'
import { bound } from './bound'
import { SEEN } from './ear-words'
import { respond, type LessonState } from './lesson-state'
import { ReadingsTable } from './readings-table'
import { ShownPlot } from './shown-plot'
import type { Asked } from './step'

interface RigNameProperties {
  readonly step: Pick<LessonStep, 'ways'>
  /** The language of each that is told in another than the rest. */
  readonly langs?: readonly (string | undefined)[]
}

/** What A and B are. */
export function RigNames({ step: { ways }, langs = [] }: RigNameProperties) {
  return (
    <dl class="lesson-given">
      {(['a', 'b'] as const).map((side, at) => (
        <div key={side}>
          <dt>{say(`lesson-ear-letter-${side}`)}</dt>
          <dd lang={langs[at]}>{bound(ways[at]?.name ?? '')}</dd>
        </div>
      ))}
    </dl>
  )
}

/** The same question for the eye: two curves without names, one of which is that of A. */
export function ByEye({ state, at, response }: Asked) {
  const eye = useEye(state, at)
  const group = useId()
  return (
    <>
      <p class="hint">{say('lesson-ear-eye-hint')}</p>
      {eye !== null && eye.plot !== null && <ShownPlot plot={eye.plot} />}
      {eye !== null && <EyeRows rows={eye.rows} />}
      <fieldset>
        <legend>{say('lesson-ear-which')}</legend>
        <div class="choices">
          {SEEN.map(seen => (
            <label key={seen}>
              <input
                type="radio"
                name={group}
                checked={response.seen === seen}
                onChange={() => respond({ seen, heard: [] })}
              />
              <span>{say(`lesson-ear-seen-${seen}`)}</span>
            </label>
          ))}
        </div>
      </fieldset>
    </>
  )
}

/** What two rigs read that have no names. */
export function EyeRows({ rows }: { readonly rows: readonly EarEyeRow[] }) {
  if (rows.length === 0) return null
  return (
    <ReadingsTable
      heads={[say('lesson-ear-rig-first'), say('lesson-ear-rig-second')]}
      rows={rows.map(({ id, name, first, second }) => ({ id, name, cells: [first, second] }))}
    />
  )
}

/** What the rigs of a step look like; nothing until that has come, or where the step is of another kind. */
export function useEye({ lesson, seed }: LessonState, at: number): EarEye | null {
  const settings = useStore(state => state.settings)
  const [eye, setEye] = useState<EarEye | null>(null)
  const isAsked = lesson.steps[at]?.kind === 'ear'
  useEffect(() => {
    if (!isAsked) return
    let isNewest = true
    askStage('lesson_eye', lesson, seed, at, settings).then(
      eye => isNewest && setEye(eye),
      // What cannot be drawn is not shown.
      () => undefined,
    )
    return () => {
      isNewest = false
    }
  }, [lesson, seed, at, settings, isAsked])
  return eye
}
