import type { Place } from './screen/link'
import { Fault } from './use-fault'
import { Stage } from './use-stage'

interface Properties {
  readonly place: Extract<Place, { readonly kind: 'stage' | 'fault' }>
}

/** The screens whose scripts come once they are wanted. */
export function LateScreen({ place }: Properties) {
  return place.kind === 'stage' ? <Stage view={place.view} /> : <Fault rest={place.rest} />
}
