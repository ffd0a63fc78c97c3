import { say } from '../../base/words'

export function ListView() {
  return <h2>{say('stage-view-list')}</h2>
}
