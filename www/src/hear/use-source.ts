import { useCallback, useState } from 'preact/hooks'
import type { Source } from './source'

const FIRST: Source = { made: 'bass' }

/** What is played: the source chosen last that has not been rejected. */
export function useSource() {
  // Whether a recording is one shows late: what was chosen before it is kept. What is made up always plays.
  const [chosen, setChosen] = useState<readonly Source[]>([FIRST])
  const choose = useCallback(
    (source: Source) => setChosen(chosen => ('made' in source ? [source] : [...chosen, source])),
    [],
  )
  const reject = useCallback((wrong: Source) => setChosen(chosen => chosen.filter(source => source !== wrong)), [])
  return { source: chosen.at(-1) ?? FIRST, choose, reject }
}
