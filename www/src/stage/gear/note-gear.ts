import { keep } from '../../base/kept'
import { HAS_GEAR } from '../../screen/has-gear'

/** Has the page offer the gear of this device to calculators the next time, or not. */
export function noteGear(hasGear: boolean): void {
  keep(HAS_GEAR, hasGear)
}
