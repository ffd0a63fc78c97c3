import { useRef } from 'preact/hooks'
import { say } from '../base/words'
import { embedOf, useStore } from '../screen/store'
import { heardText, nameOf, type Rig } from './rigs'
import type { Sounding } from './player'
import { useRoom } from './use-room'

interface Properties {
  readonly rigs: readonly [Rig, Rig]
  readonly sounding: Sounding
  readonly onPlay: () => void
  readonly onToggle: () => void
  readonly onStop: () => void
}

/** The one large button: it starts the sound, and then goes from one rig to the other. */
export function Switch({ rigs: [a, b], sounding, onPlay, onToggle, onStop }: Properties) {
  const sounded = useRef(false)
  if (sounding.kind === 'playing') sounded.current = true
  const playing = sounding.kind === 'playing' ? sounding.side : null
  const [on, off] = playing === 'b' ? [b, a] : [a, b]
  // The frame of a lesson is as tall as what is in it: its end may be far out of sight.
  const over = useStore(state => embedOf(state) === null) || window.parent === window
  const bar = useRef<HTMLDivElement>(null)
  useRoom(bar, over && playing !== null)
  return (
    <div class="hear-place" data-over={over}>
      <div ref={bar} class="hear-play" data-sounding={sounding.kind} data-side={playing ?? ''}>
        <button
          type="button"
          class="hear-switch"
          aria-busy={sounding.kind === 'opening'}
          onClick={sounding.kind === 'playing' ? onToggle : sounding.kind === 'opening' ? undefined : onPlay}
        >
          {sounding.kind === 'playing' ? (
            <>
              <span class="hear-halves" aria-hidden="true">
                {[a, b].map((rig, place) => (
                  <span key={place} data-on={rig === on}>
                    {rig.kind === 'held' && <span class="hear-short">{say('hear-side-kept')}</span>}
                    <span data-long={rig.kind === 'held'}>{nameOf(rig)}</span>
                  </span>
                ))}
              </span>
              <span>{say(`hear-to-${off.kind}`, { held: off.held })}</span>
            </>
          ) : (
            <strong>{say(sounding.kind === 'opening' ? 'hear-opening' : 'hear-play')}</strong>
          )}
        </button>
        <button type="button" class="chip hear-stop" aria-disabled={sounding.kind === 'silent'} onClick={onStop}>
          {say('hear-stop')}
        </button>
        <p class="hear-on" role="status">
          {sounding.kind === 'playing' ? heardText(on) : sounded.current ? say('hear-silent') : ''}
        </p>
      </div>
    </div>
  )
}
