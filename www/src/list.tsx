import { useMemo, useState } from 'preact/hooks'
import type { Description } from '../generated/contract'
import { writePlace } from './link'
import { useStore } from './store'
import { say } from './words'

/** The start: a search box, then every calculator with what it answers. */
export function List() {
  const descriptions = useStore(state => state.descriptions)
  const settings = useStore(state => state.settings)
  const [text, setText] = useState('')
  const entries = useMemo(
    () => descriptions.map(description => ({ description, words: wordsOf(description) })),
    [descriptions],
  )
  const parts = plain(text).split(/\s+/).filter(Boolean)
  const found = entries
    .filter(({ words }) => parts.every(part => words.includes(part)))
    .map(({ description }) => description)
  const hash = ({ id }: Description) =>
    writePlace({ calculator: id, current: {}, held: [], want: null, tolerance: null }, settings)
  const [first] = found
  return (
    <>
      <div class="intro">
        <h1 tabIndex={-1}>{say('title')}</h1>
        <p>{say('purpose')}</p>
      </div>
      <search>
        <form
          class="find"
          onSubmit={event => {
            event.preventDefault()
            if (first !== undefined && parts.length > 0) location.hash = hash(first)
          }}
        >
          <label for="find">{say('find')}</label>
          <input
            id="find"
            type="search"
            autocomplete="off"
            autocapitalize="none"
            spellcheck={false}
            enterkeyhint="go"
            placeholder={say('find-example')}
            value={text}
            onInput={event => setText(event.currentTarget.value)}
          />
        </form>
      </search>
      <p class="count" role="status">
        {parts.length === 0
          ? ''
          : found.length === 0
            ? say('find-none')
            : say('find-count', { count: String(found.length), all: String(entries.length) })}
      </p>
      <ul class="calculators">
        {found.map(description => (
          <li key={description.id}>
            <a href={hash(description)} data-calculator={description.id}>
              <span class="title">{description.title}</span>
              <span class="purpose">{description.purpose}</span>
            </a>
          </li>
        ))}
      </ul>
    </>
  )
}

function wordsOf({ id, title, purpose, fields, presets }: Description): string {
  const names = [...fields.flatMap(({ name, group }) => [name, group]), ...presets.map(({ name }) => name)]
  return plain([id, title, purpose, ...names].join(' '))
}

function plain(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
}
