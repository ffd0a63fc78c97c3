import { whenIdle } from './base/idle'
import { peek } from './base/kept'
import { lateScreen, useLateScreen } from './late-screen'
import { bringWhole } from './screen/opening'
import { HAS_GEAR } from './screen/has-gear'
import { getState, isEmbedded } from './screen/store'
import type { stage } from './stage/stage-part'

const wantStage = lateScreen<typeof stage>('stage')

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
  const { come, awaited } = useLateScreen(wantStage, 'plan')
  return come === null ? awaited : <come.Stage view={view} />
}
