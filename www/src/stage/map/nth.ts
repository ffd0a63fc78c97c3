/** What a list has at a place that is known to be one of its own. */
export function nth<T>(list: readonly T[], place: number): T {
  return list[place] as T
}
