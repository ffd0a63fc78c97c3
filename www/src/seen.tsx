import type { Description } from '../generated/contract'
import { Plots } from './plot/plots'
import { Rig } from './rig/rig'

/** What of an answer is a picture. */
export function Seen({ description }: { readonly description: Description }) {
  return (
    <>
      <Rig />
      <Plots description={description} />
    </>
  )
}
