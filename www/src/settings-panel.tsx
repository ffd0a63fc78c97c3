import { useState } from 'preact/hooks'
import { canStayAwake, setAwake, wantsAwake } from './awake'
import { Segments, choices } from './base/segments'
import { say } from './base/words'
import { LanguageChoice } from './language-choice'
import { setSettings, setTheme } from './screen/choices'
import { useStore } from './screen/store'
import { THEMES } from './screen/theme'
import { isSlashOn, setSlash } from './start/slash-key'

/** What the reader chooses for the whole page. */
export function Settings() {
  const settings = useStore(state => state.settings)
  const theme = useStore(state => state.theme)
  return (
    <>
      <LanguageChoice />
      <Segments
        name="decimal"
        legend={say('decimal')}
        options={choices('decimal', ['point', 'comma'])}
        value={settings.decimal}
        onChoose={decimal => setSettings({ decimal })}
      />
      <Segments
        name="length"
        legend={say('length')}
        options={choices('length', ['metre', 'foot'])}
        value={settings.length}
        onChoose={length => setSettings({ length })}
      />
      <Segments
        name="mains"
        legend={say('mains')}
        options={choices('mains', ['50', '60'])}
        value={settings.mains}
        onChoose={mains => setSettings({ mains })}
      />
      <Segments
        name="theme"
        legend={say('theme')}
        options={choices('theme', THEMES)}
        value={theme}
        onChoose={setTheme}
      />
      <Awake />
      <SlashKey />
    </>
  )
}

/** Whether a key of one character leads to the search. */
function SlashKey() {
  const [on, setOn] = useState(isSlashOn)
  return (
    <Segments
      name="slash"
      legend={say('slash')}
      options={choices('slash', ['yes', 'no'])}
      value={on ? 'yes' : 'no'}
      onChoose={value => {
        setOn(value === 'yes')
        setSlash(value === 'yes')
      }}
    />
  )
}

/** Whether the screen may sleep, or why that cannot be chosen here. */
function Awake() {
  const [awake, setWanted] = useState(wantsAwake)
  const [refused, setRefused] = useState(false)
  if (!canStayAwake) return <p class="hint">{say('awake-cannot')}</p>
  return (
    <div>
      <Segments
        name="awake"
        legend={say('awake')}
        options={choices('awake', ['no', 'yes'])}
        value={awake ? 'yes' : 'no'}
        onChoose={async value => {
          setWanted(value === 'yes')
          setRefused(!(await setAwake(value === 'yes')))
        }}
      />
      <p role="status">{refused && say('awake-refused')}</p>
    </div>
  )
}
