import { say } from '../../base/words'

export function GearView() {
  return <h2>{say('stage-view-gear')}</h2>
}
