import { say } from '../../base/words'

export function PackingView() {
  return <h2>{say('stage-view-packing')}</h2>
}
