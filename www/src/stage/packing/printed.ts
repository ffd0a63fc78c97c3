import { useStore } from '../../screen/store'
import { print, printing } from '../../base/unit'

/** Prints lengths and currents as the reader wants them. */
export function usePrint(): {
  readonly length: (metres: number) => string
  readonly current: (amperes: number) => string
} {
  const settings = useStore(state => state.settings)
  const [metre, ampere] = [printing('metre', 'm', settings), printing('ampere', 'A', settings)]
  return {
    length: metres => print(metres, metre, settings),
    current: amperes => print(amperes, ampere, settings),
  }
}
