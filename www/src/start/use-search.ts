import { useCallback, useEffect, useState } from 'preact/hooks'
import { useStore } from '../screen/store'
import { find, prepareSearch, type Results } from './found'

/** Whether what searches is there. */
export type Searching = 'absent' | 'ready' | 'failed'

/** What a text finds; nothing without a text, or until what searches has come. */
export function useSearch(text: string) {
  const settings = useStore(state => state.settings)
  const [state, setState] = useState<Searching>('absent')
  const searching = text.trim() !== ''
  const prepare = useCallback(async () => setState(await prepareSearch().then(ready, failed)), [])
  useEffect(() => {
    // What did not come is asked for with every key.
    if (searching) void prepare()
  }, [searching, text, prepare])
  const results: Results | null = searching && state === 'ready' ? find(text, settings) : null
  return { settings, searching, state, results, prepare }
}

function ready(): Searching {
  return 'ready'
}

function failed(): Searching {
  return 'failed'
}
