// The address of the finder of faults with a line in it, for those that lead there.

import type { Settings } from '../../generated/contract'
import { writeFault, writeTexts, type Texts } from './link'
import { writeSettings } from './settings'

/** The finder of faults for a line, before anything is said of its fault. */
export function writeFaultOf(texts: Texts, settings: Settings): string {
  const written = writeSettings(settings)
  return writeFault(`//${writeTexts(texts)}${written === '' ? '' : `?in=${written}`}`)
}
