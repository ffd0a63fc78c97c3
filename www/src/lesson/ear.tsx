import { useId, useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { EarHeard } from '../../generated/contract'
import { say } from '../base/words'
import { Volume } from '../hear/volume'
import { ByEye, RigNames } from './ear-eye'
import { respond } from './lesson-state'
import type { Asked } from './step'
import { namedIn } from './told-in'
import type { Sounding, Which } from './ear-player'
import { useEar, type Ear } from './use-ear'

const LISTENED: readonly Which[] = ['a', 'b', 'x']
const NAMED: readonly EarHeard[] = ['a', 'b', 'skip']

/** A, B and X to listen to, and X to name; or the same question for the eye. */
export function EarAnswer(asked: Asked) {
  const { response } = asked
  const [isSeen, setSeen] = useState(response.seen !== null)
  const change = () => {
    respond({ seen: null })
    setSeen(!isSeen)
  }
  return (
    <div class="lesson-ear">
      <RigNames step={asked.step} langs={[0, 1].map(at => namedIn(asked.state, asked.step, 'ways', at))} />
      {isSeen ? <ByEye {...asked} /> : <ByEar {...asked} />}
      <button type="button" class="chip" onClick={change}>
        {say(isSeen ? 'lesson-ear-listen' : 'lesson-ear-look')}
      </button>
    </div>
  )
}

function ByEar(asked: Asked) {
  const { step, response } = asked
  const { heard } = response
  const of = asked.dealt.trials
  const isDone = heard.length >= of
  const ear = useEar(asked, heard.length)
  const trial = useRef<HTMLParagraphElement>(null)
  const why = useId()
  useLayoutEffect(() => {
    // The button that named the last one went, and its focus with it.
    if (isDone && document.activeElement === document.body) trial.current?.focus()
  }, [isDone])
  const byKey = (event: KeyboardEvent) => {
    const which = LISTENED.find(which => which === event.key.toLowerCase())
    if (which === undefined || event.ctrlKey || event.metaKey || event.altKey || (isDone && which === 'x')) return
    event.preventDefault()
    ear.play(which)
  }
  return (
    <div class="lesson-ear-panel" onKeyDown={byKey}>
      <p class="lesson-ear-caution">{say('lesson-ear-caution')}</p>
      <p class="hint">
        {say(`lesson-ear-${step.as_it_is ? 'as-it-is' : 'matched'}`, {
          source: say(`lesson-ear-source-${step.source}`),
        })}
      </p>
      <Listening ear={ear} isDone={isDone} />
      <p ref={trial} id={why} class="lesson-ear-trial" tabIndex={-1} aria-live="polite">
        {isDone
          ? say('lesson-ear-done', { of: `${of}` })
          : say(`lesson-ear-trial${ear.isXHeard ? '' : '-unheard'}`, { trial: `${heard.length + 1}`, of: `${of}` })}
      </p>
      <div class="lesson-ear-names">
        {!isDone &&
          NAMED.map(one => (
            // Not disabled: that would take the focus with each trial, and the keys with it.
            <button
              key={one}
              type="button"
              class="chip"
              aria-disabled={!ear.isXHeard}
              aria-describedby={why}
              onClick={() => ear.isXHeard && respond({ heard: [...heard, one] })}
            >
              {say(`lesson-ear-is-${one}`)}
            </button>
          ))}
        {heard.length > 0 && (
          <button type="button" class="chip quiet" onClick={() => respond({ heard: heard.slice(0, -1) })}>
            {say('lesson-undo')}
          </button>
        )}
      </div>
    </div>
  )
}

/** One switch between three, of which two are the same. */
function Listening({ ear, isDone }: { readonly ear: Ear; readonly isDone: boolean }) {
  const [volume, setVolume] = useState(0)
  const { sounding } = ear
  return (
    <>
      <div class="lesson-ear-switch" role="group" aria-label={say('lesson-ear-listen-to')}>
        {LISTENED.map(which => (
          <button
            key={which}
            type="button"
            disabled={isDone && which === 'x'}
            aria-pressed={sounding.kind === 'playing' && sounding.which === which}
            onClick={() => ear.play(which)}
          >
            {say(`lesson-ear-letter-${which}`)}
          </button>
        ))}
        <button
          type="button"
          aria-disabled={sounding.kind !== 'playing' && sounding.kind !== 'opening'}
          onClick={ear.stop}
        >
          {say('lesson-ear-stop')}
        </button>
      </div>
      <p role="status" data-sounding={sounding.kind}>
        {told(sounding)}
      </p>
      <Volume
        label={say('lesson-ear-volume')}
        value={volume}
        onChange={value => {
          setVolume(value)
          ear.volume(value)
        }}
      />
      <p class="hint">{say('lesson-ear-keys')}</p>
    </>
  )
}

function told(sounding: Sounding): string {
  if (sounding.kind !== 'playing') return say(`lesson-ear-${sounding.kind}`)
  return say('lesson-ear-playing', { which: say(`lesson-ear-letter-${sounding.which}`) })
}
