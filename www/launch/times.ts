/** As SCORM 1.2 has it: HHHH:MM:SS.SS. */
export function timespan(milliseconds: number): string {
  const hundredths = Math.min(Math.max(0, Math.round(milliseconds / 10)), 9999 * 360_000 + 359_999)
  const [hours, minutes] = [Math.floor(hundredths / 360_000), Math.floor(hundredths / 6000) % 60]
  const seconds = (hundredths % 6000) / 100
  return `${padded(hours, 4)}:${padded(minutes, 2)}:${seconds.toFixed(2).padStart(5, '0')}`
}

/** As ISO 8601 has it, to hundredths of a second: PT1M2.5S. */
export function duration(milliseconds: number): string {
  const seconds = Math.max(0, Math.round(milliseconds / 10) / 100)
  return `PT${Math.floor(seconds / 60)}M${Number((seconds % 60).toFixed(2))}S`
}

/** The time of day: HH:MM:SS. */
export function timeOfDay(at: number): string {
  const date = new Date(at)
  return [date.getHours(), date.getMinutes(), date.getSeconds()].map(number => padded(number, 2)).join(':')
}

function padded(number: number, digits: number): string {
  return `${number}`.padStart(digits, '0')
}
