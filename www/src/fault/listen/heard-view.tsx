import type { CauseOdds, Heard } from '../../../generated/contract'
import { usePiece } from '../../base/use-piece'
import type { Curve } from './draw'
import { Families } from './families'
import { Key } from './key'
import type { Latest } from './latest'
import { LinesTable } from './lines-table'
import { Said } from './said'
import { Spectrum } from './spectrum'

interface Properties {
  readonly sound: Latest<Heard | null>
  readonly odds: readonly CauseOdds[]
  /** What comes in, as long as something does. */
  readonly live: Latest<Curve> | null
}

/** What is heard: in sentences, as a spectrum, and as numbers, each of which follows it by itself. */
export function HeardView({ sound, odds, live }: Properties) {
  const isNothing = usePiece(sound.listeners, sound.get, heard => heard === null)
  if (isNothing && live === null) return null
  return (
    <div class="listen-heard">
      <Said sound={sound} isLive={live !== null} />
      <Spectrum sound={sound} odds={odds} live={live} />
      <Key sound={sound} odds={odds} />
      <Families sound={sound} />
      <LinesTable sound={sound} odds={odds} />
    </div>
  )
}
