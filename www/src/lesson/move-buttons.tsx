import { say } from '../base/words'

interface Properties {
  /** What is moved. */
  readonly name: string
  /** Its place, and how many there are. */
  readonly at: number
  readonly of: number
  /** The `id` of each button. */
  readonly button: (way: 'up' | 'down') => string
  readonly onMove: (to: number, button: string) => void
}

/** Moves a thing of a list, for those who do not drag; at an end it goes no further. */
export function MoveButtons({ name, at, of, button, onMove }: Properties) {
  return (
    <>
      {(['up', 'down'] as const).map(way => {
        const to = at + (way === 'up' ? -1 : 1)
        return (
          <button
            key={way}
            type="button"
            class="lesson-move"
            id={button(way)}
            aria-label={say(`lesson-${way}`, { way: name })}
            aria-disabled={to < 0 || to >= of}
            onClick={event => onMove(to, event.currentTarget.id)}
          >
            {way === 'up' ? '↑' : '↓'}
          </button>
        )
      })}
    </>
  )
}
