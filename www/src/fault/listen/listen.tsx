import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { CauseOdds, Heard, Sound } from '../../../generated/contract'
import { say } from '../../base/words'
import { getState, isEmbedded, useStore } from '../../screen/store'
import { Latest, useLatest } from './latest'
import { Panel } from './panel'
import { briefly, soundOf } from './told'
import { Unlike } from './unlike'

interface Properties {
  readonly onHeard: (sound: Sound | null) => void
  /** What the reader says is heard. */
  readonly symptom: string
  /** Starts again with another symptom. */
  readonly onAgain: (symptom: string) => void
  readonly odds: readonly CauseOdds[]
}

/** What the microphone or a recording tells of the fault. */
export function Listen({ onHeard, symptom, onAgain, odds }: Properties) {
  const [isOpen, setOpen] = useState(false)
  const sound = useMemo(() => new Latest<Heard | null>(null), [])
  const used = useUsed(onHeard)
  // A frame of a lesson gets no microphone.
  if (isEmbedded(getState())) return null
  return (
    <section class="listen" aria-label={say('fault-listen')}>
      <details onToggle={event => setOpen(event.currentTarget.open)}>
        <summary>{say('fault-listen')}</summary>
        {isOpen && (
          <>
            <Panel odds={odds} symptom={symptom} sound={sound} />
            <Unlike symptom={symptom} sound={sound} onAgain={onAgain} />
            <Use sound={sound} used={used.heard} onUse={used.use} />
          </>
        )}
      </details>
      <Used heard={used.heard} onBack={() => used.use(null)} />
    </section>
  )
}

/** What was heard and counts; what can no longer be taken back counts no longer. */
function useUsed(onHeard: Properties['onHeard']) {
  const [heard, setHeard] = useState<Heard | null>(null)
  const tell = useRef(onHeard)
  tell.current = onHeard
  useEffect(() => () => tell.current(null), [])
  const use = (next: Heard | null) => {
    setHeard(next)
    onHeard(next === null ? null : soundOf(next))
  }
  return { heard, use }
}

interface UseProperties {
  readonly sound: Latest<Heard | null>
  readonly used: Heard | null
  readonly onUse: (heard: Heard | null) => void
}

/** Lets what is heard count for the odds. */
function Use({ sound, used, onUse }: UseProperties) {
  const heard = useLatest(sound)
  const isTold = heard !== null && heard.families.length > 0
  return (
    <div class="listen-use">
      <p>{say('fault-listen-odds')}</p>
      <button type="button" class="chip listen-start" disabled={!isTold || heard === used} onClick={() => onUse(heard)}>
        {say(used === null ? 'fault-listen-use' : 'fault-listen-use-now')}
      </button>
    </div>
  )
}

/** What counts for the odds, whether the panel is open or not, and the way to take it back. */
function Used({ heard, onBack }: { readonly heard: Heard | null; readonly onBack: () => void }) {
  const settings = useStore(state => state.settings)
  return (
    <div class="listen-used">
      <p role="status">{heard === null ? '' : say('fault-listen-used', { what: briefly(heard, settings) })}</p>
      {heard !== null && (
        <button type="button" class="chip" onClick={onBack}>
          {say('fault-listen-take-back')}
        </button>
      )}
    </div>
  )
}
