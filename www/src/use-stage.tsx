import { useCallback, useEffect, useState } from 'preact/hooks'
import { whenIdle } from './base/idle'
import { peek } from './base/kept'
import { Missing } from './base/missing'
import { pieceOf } from './base/piece'
import { addWords, say, type PageWords } from './base/words'
import { bringJson } from './engine/engine-files'
import { bringWhole } from './screen/opening'
import { HAS_GEAR } from './screen/has-gear'
import { getState, isEmbedded, useStore } from './screen/store'
import type { stage } from './stage/stage-part'

const piece = pieceOf<typeof stage>('stage')
let words: Promise<void> | null = null

/** The piece of the page that has the stage, and what it says. */
async function wantStage(): Promise<typeof stage> {
  words ??= bringJson<Pick<PageWords, 'words'>>('stage-words').then(addWords)
  try {
    await words
  } catch (error) {
    words = null
    throw error
  }
  return piece.want()
}

/** Fetches it for the gear that this device has, which calculators can be filled from. */
export function offerGear(): void {
  if (isEmbedded(getState()) || peek(HAS_GEAR, isTrue) === null) return
  whenIdle(() => {
    void bringWhole()
      .then(wantStage)
      .then(({ openLastShow }) => openLastShow())
      // Without it a calculator does what it did before.
      .catch(() => undefined)
  })
}

function isTrue(value: unknown): value is true {
  return value === true
}

/** The whole stage, once it and the engine have come. */
export function Stage({ view }: { readonly view: string }) {
  const [come, setCome] = useState<typeof stage | null>(null)
  const [failed, setFailed] = useState(false)
  const whole = useStore(state => state.whole)
  const again = useCallback(() => {
    setFailed(false)
    void bringWhole()
    wantStage().then(
      stage => setCome(() => stage),
      () => setFailed(true),
    )
  }, [])
  useEffect(again, [again])
  if (come !== null && whole === 'here') return <come.Stage view={view} />
  return (
    <>
      <div class="intro">
        <h1 tabIndex={-1}>{say('plan')}</h1>
      </div>
      <Missing later={{ failed: failed || whole === 'missing', again }} />
    </>
  )
}
