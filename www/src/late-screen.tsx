import { useCallback, useEffect, useState } from 'preact/hooks'
import { Missing } from './base/missing'
import { pieceOf } from './base/piece'
import { addWords, say, type PageWords } from './base/words'
import { bringJson } from './engine/engine-files'
import { bringWhole } from './screen/opening'
import { useStore } from './screen/store'

/** Fetches the piece of the page that has a screen, and what it says. */
export function lateScreen<T>(name: string): () => Promise<T> {
  const piece = pieceOf<T>(name)
  let words: Promise<void> | null = null
  return async () => {
    words ??= bringJson<Pick<PageWords, 'words'>>(`${name}-words`).then(addWords)
    try {
      await words
    } catch (error) {
      words = null
      throw error
    }
    return piece.want()
  }
}

/** What a late screen has, once it and the engine have come; until then what stands in its place. */
export function useLateScreen<T>(want: () => Promise<T>, title: string) {
  const [come, setCome] = useState<T | null>(null)
  const [failed, setFailed] = useState(false)
  const whole = useStore(state => state.whole)
  const again = useCallback(() => {
    setFailed(false)
    void bringWhole()
    want().then(
      come => setCome(() => come),
      () => setFailed(true),
    )
  }, [want])
  useEffect(again, [again])
  const awaited = (
    <>
      <div class="intro">
        <h1 tabIndex={-1}>{say(title)}</h1>
      </div>
      <Missing later={{ failed: failed || whole === 'missing', again }} />
    </>
  )
  return { come: whole === 'here' ? come : null, awaited }
}
