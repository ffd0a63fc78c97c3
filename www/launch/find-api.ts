/** The interface of a learning system: in one of the windows around this one, or around the one that opened it. */
export function findApi<T>(name: string): T | null {
  return above<T>(window, name) ?? (window.opener === null ? null : above<T>(window.opener as Window, name))
}

/** More windows than this are inside one another nowhere. */
const MOST = 500

function above<T>(from: Window, name: string): T | null {
  let at = from
  for (let up = 0; up < MOST; up += 1) {
    try {
      const api = (at as unknown as Record<string, T | undefined>)[name]
      if (api !== undefined && api !== null) return api
      if (at.parent === at) return null
      at = at.parent
    } catch {
      // A window of another origin has nothing for this one.
      return null
    }
  }
  return null
}
