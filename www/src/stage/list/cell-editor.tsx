import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks'
import { say } from '../../base/words'
import { headOf, optionsOf, type Column, type Names } from './columns'
import { setCells } from './deeds'
import { PLACES } from './grid-keys'
import { endEdit, getList, moveTo, putList } from './list-state'
import { shownIds } from './rows'

interface Properties {
  readonly line: string
  readonly column: Column
  readonly value: string
  /** What it begins with: what stands there, or what was typed on the cell. */
  readonly text: string
  readonly names: Names
}

/** What a cell is edited in. */
export function CellEditor({ line, column, value, text: first, names }: Properties) {
  const options = optionsOf(column, names, line)
  const [text, setText] = useState(options.length === 0 ? first : chosenBy(first, value, options))
  const input = useRef<HTMLInputElement & HTMLSelectElement>(null)
  const ended = useRef(false)
  useLayoutEffect(() => {
    input.current?.focus()
    if (first === value && input.current?.select !== undefined) input.current.select()
  }, [first, value])
  const end = (keep: boolean) => {
    if (ended.current) return
    ended.current = true
    if (keep && text !== value) setCells([line], column.id, text)
  }
  useLeaving(() => end(true))
  const onKeyDown = (event: KeyboardEvent) => {
    event.stopPropagation()
    if (event.isComposing || !['Enter', 'Tab', 'Escape'].includes(event.key)) return
    event.preventDefault()
    end(event.key !== 'Escape')
    if (event.key === 'Tab') moveTo(beside(line, column, event.shiftKey ? -1 : 1))
    else if (event.key === 'Enter') moveTo({ line: below(line, event.shiftKey ? -1 : 1), column: column.id })
    else endEdit()
  }
  const onBlur = () => {
    const was = ended.current
    end(true)
    // Whoever clicks elsewhere is there already.
    if (!was && getList().cursor?.line === line && getList().editing !== null) putList({ editing: null })
  }
  const common = {
    'aria-label': say('stage-list-edit', { column: headOf(column.id) }),
    value: text,
    onKeyDown,
    onBlur,
  }
  if (options.length === 0) {
    return (
      <input
        ref={input}
        type="text"
        autocomplete="off"
        {...common}
        onInput={event => setText(event.currentTarget.value)}
      />
    )
  }
  return (
    <select ref={input} {...common} onChange={event => setText(event.currentTarget.value)}>
      {options.map(([id, name]) => (
        <option key={id} value={id}>
          {name}
        </option>
      ))}
      {!options.some(([id]) => id === text) && <option value={text}>{text}</option>}
    </select>
  )
}

/** A page that goes away takes along what is half typed. */
function useLeaving(leave: () => void): void {
  const last = useRef(leave)
  last.current = leave
  useEffect(() => {
    const left = () => last.current()
    addEventListener('pagehide', left, true)
    return () => removeEventListener('pagehide', left, true)
  }, [])
}

/** What a letter that was typed on a cell chooses. */
function chosenBy(first: string, value: string, options: readonly (readonly [string, string])[]): string {
  if (first === value) return value
  return options.find(([id, name]) => id !== '' && name.toLowerCase().startsWith(first.toLowerCase()))?.[0] ?? value
}

function below(line: string, by: number): string {
  const ids = shownIds()
  return ids[ids.indexOf(line) + by] ?? line
}

function beside(line: string, column: Column, by: number) {
  return { line, column: PLACES[PLACES.indexOf(column.id) + by] ?? column.id }
}
