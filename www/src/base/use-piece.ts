import { useLayoutEffect, useReducer, useRef } from 'preact/hooks'

/** A piece of a state that changes; the view is drawn again when the piece is another. */
export function usePiece<State, Piece>(
  listeners: Set<() => void>,
  get: () => State,
  select: (state: State) => Piece,
): Piece {
  const [, draw] = useReducer((count: number, _: undefined) => count + 1, 0)
  const value = select(get())
  const last = useRef({ select, value })
  last.current = { select, value }
  useLayoutEffect(() => {
    const listener = () => {
      if (!Object.is(last.current.select(get()), last.current.value)) draw(undefined)
    }
    listeners.add(listener)
    // The state may have changed between drawing and listening.
    listener()
    return () => {
      listeners.delete(listener)
    }
  }, [get, listeners])
  return value
}
