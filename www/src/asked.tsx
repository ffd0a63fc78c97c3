import type { Description } from '../generated/contract'
import { Backwards } from './answer/backwards'
import { FindFault } from './answer/find-fault'

/** What is asked further about an answer. */
export function Asked({ description }: { readonly description: Description }) {
  return (
    <>
      <Backwards description={description} />
      {description.id === 'whole-line' && <FindFault />}
    </>
  )
}
