import { useEffect, useRef, useState } from 'preact/hooks'

/** Nothing is read out sooner after what was read last, ms. */
const PAUSE = 4000

/** The text that is to be read out: that of another `sign`, and never many in a row; nothing as soon as there is no sign. */
export function useSpoken(sign: string, text: string): string {
  const [spoken, setSpoken] = useState('')
  const last = useRef({ at: -Infinity, text })
  last.current.text = text
  useEffect(() => {
    if (sign === '') {
      // What comes next is something new, which need not wait for what is gone.
      last.current.at = -Infinity
      setSpoken('')
      return undefined
    }
    const wait = Math.max(0, last.current.at + PAUSE - performance.now())
    const timer = setTimeout(() => {
      last.current.at = performance.now()
      setSpoken(last.current.text)
    }, wait)
    return () => clearTimeout(timer)
  }, [sign])
  return sign === '' ? '' : spoken
}
