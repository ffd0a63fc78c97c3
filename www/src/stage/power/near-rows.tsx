import type { ComponentChildren } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import { whilePrinting } from '../show/while-printing'

/** Lists up to this long are drawn as a whole, so that the browser finds every word of them. */
const SHORT = 60
/** Of a longer one so many rows are drawn together, or left blank together. */
const TOGETHER = 20
/** So far from the view rows are drawn already, in heights of the screen. */
const AHEAD = '100%'
/** About the height of a row until one was measured, in pixels. */
const GUESS = 56

interface Properties<T> {
  readonly rows: readonly T[]
  /** The row that is drawn wherever it is. */
  readonly wanted: number
  readonly draw: (row: T, place: number) => ComponentChildren
}

/**
 * The rows of a list that scrolls with the page; of a long one those near the view and
 * those with the focus, or all of them on paper.
 */
export function NearRows<T>({ rows, wanted, draw }: Properties<T>) {
  const whole = usePrinting() || rows.length <= SHORT
  const [{ heights, row }, follow] = useNear()
  const [focused, setFocused] = useState(0)
  const starts = Array.from({ length: Math.ceil(rows.length / TOGETHER) }, (_, index) => index * TOGETHER)
  return (
    <div role="list" class="near-rows">
      {starts.map((start, index) => {
        const some = rows.slice(start, start + TOGETHER)
        const isWanted = [wanted, focused * TOGETHER].some(place => place >= start && place < start + TOGETHER)
        return (
          <Part
            key={index}
            index={index}
            drawn={whole || isWanted || heights.get(index) === null}
            height={heights.get(index) ?? some.length * row}
            follow={follow}
            onFocus={setFocused}
          >
            {() => some.map((row, place) => draw(row, start + place))}
          </Part>
        )
      })}
    </div>
  )
}

type Follow = (element: HTMLElement) => () => void

interface PartProperties {
  readonly index: number
  readonly drawn: boolean
  /** How high it is while it is not drawn, in pixels. */
  readonly height: number
  readonly follow: Follow
  readonly onFocus: (index: number) => void
  readonly children: () => ComponentChildren
}

/** Rows that are drawn together; undrawn they keep their place. */
function Part({ index, drawn, height, follow, onFocus, children }: PartProperties) {
  const part = useRef<HTMLDivElement>(null)
  useEffect(() => (part.current === null ? undefined : follow(part.current)), [follow])
  return (
    <div
      ref={part}
      role="presentation"
      class="near-part"
      data-part={index}
      style={drawn ? {} : { blockSize: `${height}px` }}
      onFocusIn={() => onFocus(index)}
    >
      {drawn && children()}
    </div>
  )
}

interface Near {
  /** By part how high it was when it went out of view, where it was drawn; null while it is near. */
  readonly heights: ReadonlyMap<number, number | null | undefined>
  /** How high a row is, about. */
  readonly row: number
}

/** Which parts are near the view, and what follows a part. */
function useNear(): readonly [Near, Follow] {
  const [near, setNear] = useState<Near>({ heights: new Map(), row: GUESS })
  const [follow] = useState(() => {
    const look = (entries: readonly IntersectionObserverEntry[]) => {
      const seen = entries.map(({ target, isIntersecting, boundingClientRect: { height } }) => {
        const index = Number((target as HTMLElement).dataset['part'])
        return [index, isIntersecting ? null : target.childElementCount > 0 ? height : undefined] as const
      })
      const drawn = entries.find(({ target }) => target.childElementCount > 0)
      setNear(({ heights, row }) => ({
        heights: new Map([...heights, ...seen]),
        row: drawn === undefined ? row : drawn.boundingClientRect.height / drawn.target.childElementCount,
      }))
    }
    const observer = new IntersectionObserver(look, { rootMargin: `${AHEAD} 0px` })
    return (element: HTMLElement) => {
      observer.observe(element)
      return () => observer.unobserve(element)
    }
  })
  return [near, follow]
}

/** Whether the page goes on paper. */
function usePrinting(): boolean {
  const [printing, setPrinting] = useState(false)
  useEffect(
    () =>
      whilePrinting(
        () => setPrinting(true),
        () => setPrinting(false),
      ),
    [],
  )
  return printing
}
