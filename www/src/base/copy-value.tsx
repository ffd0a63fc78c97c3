import { useRef, useState } from 'preact/hooks'
import { say } from './words'

/** What is told after a copy, and for how long. */
const TOLD = 2500

interface ValueProperties {
  readonly text: string
  /** What is copied: the number with more digits than are shown. */
  readonly exact: string
}

/** A number that is copied by a click; where the browser refuses, it is marked to be copied by hand. */
export function CopyValue({ text, exact }: ValueProperties) {
  const [told, tell] = useTold()
  const copy = async (value: Element) => {
    try {
      await navigator.clipboard.writeText(exact.replaceAll('\u00a0', ' '))
      tell(say('copied'))
    } catch {
      getSelection()?.selectAllChildren(value)
      tell(say('copy-marked'))
    }
  }
  return (
    <span class="copyable">
      <button
        type="button"
        class="copy-value"
        title={say('copy-value')}
        onClick={event => copy(event.currentTarget.firstElementChild ?? event.currentTarget)}
      >
        <bdi>{text}</bdi>
        <span class="unseen"> {say('copy-value')}</span>
      </button>
      <span role="status" class="copied">
        {told}
      </span>
    </span>
  )
}

/** A message that goes away by itself. */
export function useTold(): [string, (message: string) => void] {
  const [told, setTold] = useState('')
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)
  const tell = (message: string) => {
    clearTimeout(timer.current)
    setTold(message)
    timer.current = setTimeout(() => setTold(''), TOLD)
  }
  return [told, tell]
}
