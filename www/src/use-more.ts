import { useCallback, useEffect, useState } from 'preact/hooks'
import { whenIdle } from './base/idle'
import { pieceOf } from './base/piece'
import type { more } from './more'

/** What the page has beside its first answer. */
export type More = typeof more

export interface Later {
  /** Nothing until it has come. */
  readonly more: More | null
  readonly failed: boolean
  /** Asks for it again. */
  readonly again: () => void
}

const piece = pieceOf<More>('more')

/** Fetches it, or has tried. */
export async function wantMore(): Promise<More | null> {
  return piece.want().catch(() => null)
}

/** What comes after the first answer has been drawn, or at once where nothing is seen without it. */
export function useMore(atOnce: boolean): Later {
  const [more, setMore] = useState(piece.here)
  const [failed, setFailed] = useState(false)
  const again = useCallback(() => {
    setFailed(false)
    piece.want().then(
      come => setMore(come),
      () => setFailed(true),
    )
  }, [])
  useEffect(() => {
    if (atOnce) again()
    else whenIdle(again)
  }, [atOnce, again])
  return { more, failed, again }
}
