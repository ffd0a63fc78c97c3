import { useEffect, useRef, useState } from 'preact/hooks'
import { differences } from '../plot/difference'
import { shownDescription } from '../screen/descriptions'
import { isHidden } from '../screen/embed'
import type { Filling } from '../screen/link'
import { step } from '../screen/screen'
import { filling } from '../screen/shown'
import { embedOf, getState, useStore, type State } from '../screen/store'
import { wayOfKey, type Way } from '../base/undo-way'
import { say } from '../base/words'

/** Inputs whose text is part of the screen; others keep the undoing of their browser. */
const OWN = '.field input, .backwards input'
const TEXT = 'input:is([type=text], [type=search], :not([type])), textarea'
/** How long it stands what was undone, in milliseconds. */
const TOLD = 5000
/** At most this many of the things that changed are named. */
const NAMED = 2

/** What became of what, and the screen of which it is true. */
interface Told {
  readonly text: string
  readonly place: State['place']
}

/** Undoes and redoes what was typed, slid or chosen, by buttons and by the keys that do it everywhere. */
export function Steps({
  always = false,
}: {
  /** Or all below would move with the first change. */ readonly always?: boolean
}) {
  const undoable = useStore(state => state.undoable)
  const redoable = useStore(state => state.redoable)
  const place = useStore(state => state.place)
  const [told, setTold] = useState<Told | null>(null)
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)
  const go = (way: Way) => {
    const what = changeBy(way)
    if (what === null) return
    clearTimeout(timer.current)
    setTold({ text: say(way === 'undo' ? 'undone' : 'redone', { what }), place: getState().place })
    timer.current = setTimeout(() => setTold(null), TOLD)
  }
  useEffect(() => {
    const take = (event: Event, way: Way | null) => {
      if (way === null || event.defaultPrevented || !isOurs(event.target)) return
      event.preventDefault()
      keepingCaret(() => go(way))
    }
    const pressed = (event: KeyboardEvent) => take(event, wayOfKey(event))
    // By the menu of a text field, or what a phone has for it.
    const typed = (event: InputEvent) => take(event, WAYS[event.inputType] ?? null)
    document.addEventListener('keydown', pressed)
    document.addEventListener('beforeinput', typed)
    return () => {
      clearTimeout(timer.current)
      document.removeEventListener('keydown', pressed)
      document.removeEventListener('beforeinput', typed)
    }
  }, [])
  return (
    <div class="undoing">
      <p role="status">{told?.place === place && told.text}</p>
      {(always || undoable || redoable) && (
        <div role="group" aria-label={say('steps')}>
          <Button way="undo" possible={undoable} onPress={() => go('undo')} />
          <Button way="redo" possible={redoable} onPress={() => go('redo')} />
        </div>
      )}
    </div>
  )
}

const WAYS: Readonly<Record<string, Way>> = { historyUndo: 'undo', historyRedo: 'redo' }

interface ButtonProperties {
  readonly way: Way
  readonly possible: boolean
  readonly onPress: () => void
}

/** Where nothing is left to do it keeps the focus. */
function Button({ way, possible, onPress }: ButtonProperties) {
  return (
    <button type="button" aria-label={say(way)} title={say(way)} aria-disabled={!possible} onClick={onPress}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path
          d={way === 'undo' ? 'M9 5 4 10l5 5M4 10h10a5 5 0 0 1 0 10h-3' : 'm15 5 5 5-5 5M20 10H10a5 5 0 0 0 0 10h3'}
        />
      </svg>
    </button>
  )
}

function isOurs(target: EventTarget | null): boolean {
  return !(target instanceof Element) || target.matches(OWN) || !target.matches(TEXT)
}

/** Goes a step, and says what became of what; nothing where there is none to go. */
function changeBy(way: Way): string | null {
  const [before, was] = [filling(), getState().answer]
  if (!step(way)) return null
  const [after, now] = [filling(), getState().answer]
  const description = shownDescription(getState())
  if (before === null || after === null || description === undefined || was === null || now === null) return ''
  const embed = embedOf(getState())
  const fields = differences(description, now.fields, was.fields).filter(({ field }) => !isHidden(embed, field))
  const pieces = [
    ...fields.map(({ name, text }) => `${name} ${text === '' ? say('absent') : text}`),
    ...PARTS.filter(([part]) => JSON.stringify(before[part]) !== JSON.stringify(after[part])).map(([, key]) =>
      say(key),
    ),
  ]
  const more = pieces.length > NAMED + 1 ? [say('more', { count: `${pieces.length - NAMED}` })] : []
  return [...pieces.slice(0, more.length > 0 ? NAMED : NAMED + 1), ...more].join(', ')
}

/** What there is of a screen beside its values, and the words for it. */
const PARTS: readonly [keyof Filling, string][] = [
  ['held', 'compare'],
  ['tolerance', 'tolerances'],
  ['want', 'backwards'],
]

/** The caret of the field at hand stays behind what changes in it. */
function keepingCaret(change: () => void): void {
  const input = document.activeElement
  if (!(input instanceof HTMLInputElement) || !input.matches('[type=text]')) return change()
  const before = input.value
  change()
  // Once it is drawn.
  requestAnimationFrame(() => {
    const after = input.value
    if (after === before) return
    let same = 0
    while (same < Math.min(before.length, after.length) && before.at(-1 - same) === after.at(-1 - same)) same++
    input.setSelectionRange(after.length - same, after.length - same)
  })
}
