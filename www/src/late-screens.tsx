import type { LatePlace } from './screen/link'
import { Fault } from './use-fault'
import { Lessons } from './use-lesson'
import { Stage } from './use-stage'

/** The screens whose scripts come once they are wanted. */
export function LateScreen({ place }: { readonly place: LatePlace }) {
  if (place.kind === 'stage') return <Stage view={place.view} />
  return place.kind === 'fault' ? <Fault rest={place.rest} /> : <Lessons rest={place.rest} />
}
