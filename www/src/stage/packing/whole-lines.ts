// What each line stands for as a whole line: the texts that its sheet and its label tell.

import { useEffect, useState } from 'preact/hooks'
import type { Show } from '../../../generated/contract'
import { askStage } from '../../engine/stage'

/** The texts of the whole-line calculator, by line. */
export type WholeLines = ReadonlyMap<string, Readonly<Record<string, string>>>

/** Those of all lines; nothing until they are there. */
export function useWholeLines(show: Show): WholeLines | null {
  const [asked, setAsked] = useState<{ readonly show: Show; readonly texts: WholeLines } | null>(null)
  useEffect(() => {
    let current = true
    // A line asks for nothing of another one; a show of one line is soon handed over.
    const texts = show.lines.map(async line => {
      const alone = { ...show, lines: [line] }
      return [line.id, await askStage('stage_texts', alone, line.id)] as const
    })
    Promise.all(texts).then(
      texts => current && setAsked({ show, texts: new Map(texts) }),
      () => {},
    )
    return () => {
      current = false
    }
  }, [show])
  return asked?.show === show ? asked.texts : null
}
