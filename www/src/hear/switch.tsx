import { useRef } from 'preact/hooks'
import { say } from '../base/words'
import { nameOf, type Rig } from './rigs'
import type { Sounding } from './player'

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
  return (
    <div class="hear-play" data-sounding={sounding.kind} data-side={playing ?? ''}>
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
                  {nameOf(rig)}
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
        {sounding.kind === 'playing'
          ? say(`hear-on-${on.kind}`, { held: on.held })
          : sounded.current
            ? say('hear-silent')
            : ''}
      </p>
    </div>
  )
}
