// What a value is that came from outside.

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

export function isText(value: unknown): value is string {
  return typeof value === 'string'
}

export function areTexts(value: unknown): value is string[] {
  return Array.isArray(value) && value.every(isText)
}

export type Check = (value: unknown) => boolean

/** A record in which all that is said under these keys is good; any of them may be left open. */
export function fits(shape: Readonly<Record<string, Check>>): Check {
  return value =>
    isRecord(value) && Object.entries(shape).every(([key, isGood]) => value[key] === undefined || isGood(value[key]))
}

/** Nothing of ours is nested so deep. */
const DEEP = 64

/** Whether something is nested deeper than what is ours: copying and writing it may fail. */
export function isDeep(value: unknown): boolean {
  let level = [value]
  for (let depth = 0; depth < DEEP; depth++) {
    level = level.flatMap(one => (typeof one === 'object' && one !== null ? Object.values(one) : []))
    if (level.length === 0) return false
  }
  return true
}
