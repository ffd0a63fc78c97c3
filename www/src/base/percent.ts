/** A share as whole hundredths. */
export function percent(share: number): string {
  const hundredths = share * 100
  if (hundredths > 0 && hundredths < 1) return `<\u202f1\u00a0%`
  // Nothing is quite sure.
  return `${Math.min(Math.round(hundredths), 99)}\u00a0%`
}
