/** Whether there is a finger alone: no key to press, and nothing to drop a file with. */
export function isTouched(): boolean {
  return matchMedia('(hover: none) and (pointer: coarse)').matches
}
