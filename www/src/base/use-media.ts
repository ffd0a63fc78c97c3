import { useEffect, useState } from 'preact/hooks'

/** Whether the screen is as the query says, now and when it changes. */
export function useMedia(query: string): boolean {
  const [matches, setMatches] = useState(() => matchMedia(query).matches)
  useEffect(() => {
    const list = matchMedia(query)
    const follow = () => setMatches(list.matches)
    follow()
    list.addEventListener('change', follow)
    return () => list.removeEventListener('change', follow)
  }, [query])
  return matches
}
