/**
 * `next`, built from the pieces of `last` wherever they are equal, so that
 * what did not change is the same object and is not drawn again.
 */
export function shareStructure<T>(last: unknown, next: T): T {
  if (Object.is(last, next)) return next
  if (typeof last !== 'object' || typeof next !== 'object' || last === null || next === null) return next
  if (Array.isArray(last) !== Array.isArray(next)) return next
  const before = last as Record<string, unknown>
  const after = next as Record<string, unknown>
  const keys = Object.keys(after)
  let same = keys.length === Object.keys(before).length
  for (const key of keys) {
    // Not what every object has, whose names a field may bear too.
    if (!Object.hasOwn(before, key)) {
      same = false
      continue
    }
    const kept = shareStructure(before[key], after[key])
    if (kept !== after[key]) after[key] = kept
    same &&= Object.is(kept, before[key])
  }
  return same ? (last as T) : next
}
