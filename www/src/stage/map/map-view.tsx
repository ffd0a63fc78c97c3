import { say } from '../../base/words'

export function MapView() {
  return <h2>{say('stage-view-map')}</h2>
}
