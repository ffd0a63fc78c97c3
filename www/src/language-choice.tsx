import { useEffect, useId, useState } from 'preact/hooks'
import { language, LANGUAGES, missed } from './base/language'
import { say, toldOfLanguages } from './base/words'
import { chooseLanguage } from './screen/choose-language'

/** The languages that this page has, each by its own name. */
export function LanguageChoice() {
  const group = useId()
  const here = toldOfLanguages().filter(([code]) => LANGUAGES.includes(code))
  if (here.length < 2) return null
  return (
    <fieldset class="segments">
      <legend>{say('language')}</legend>
      <div class="choices">
        {here.map(([code, name]) => (
          <label key={code}>
            <input
              type="radio"
              name={group}
              value={code}
              checked={code === language}
              onChange={() => chooseLanguage(code)}
            />
            <span lang={code}>{name}</span>
          </label>
        ))}
      </div>
      {here.map(
        ([code, name, , missing, all]) =>
          missing > 0 && (
            <p key={code} class="hint" data-missing={code}>
              {say('language-incomplete', { language: name, count: `${missing}`, all: `${all}` })}
            </p>
          ),
      )}
    </fieldset>
  )
}

/** Words of the language did not come. */
export function LanguageNotice() {
  const [any, setAny] = useState(missed.any)
  useEffect(() => {
    missed.told = () => setAny(true)
    // Some may have been missed between drawing and listening.
    setAny(missed.any)
    return () => {
      missed.told = () => {}
    }
  }, [])
  const name = toldOfLanguages().find(([code]) => code === language)?.[1] ?? language
  return (
    <div role="status">
      {any && (
        <p class="notice update" data-missed>
          <span>{say('language-missed', { language: name })}</span>
          <button type="button" class="chip" onClick={() => location.reload()}>
            {say('language-again')}
          </button>
        </p>
      )}
    </div>
  )
}
