import { say } from '../../base/words'

export function PowerView() {
  return <h2>{say('stage-view-power')}</h2>
}
