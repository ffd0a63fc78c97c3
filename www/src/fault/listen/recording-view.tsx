import { useId, useState } from 'preact/hooks'
import { ChooseFile } from '../../base/choose-file'
import { useDropped } from '../../base/use-dropped'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { LONGEST } from './recording'
import { fixed } from './told'
import type { Opened } from './use-recording'

/** Chooses a recording; one that is dropped on the page is taken too. */
export function ChooseRecording({ onFile }: { readonly onFile: (file: File) => void }) {
  useDropped(onFile)
  return <ChooseFile name={say('fault-listen-file')} accept="audio/*,.wav" onFile={onFile} />
}

interface Properties {
  readonly opened: Opened
  readonly onFrom: (from: number) => void
}

/** How the recording stands; of a long one, which part of it is meant. */
export function RecordingView({ opened: { state, name, recording, from, wrong }, onFrom }: Properties) {
  const settings = useStore(state => state.settings)
  if (state === 'none') return null
  if (state === 'wrong') {
    return (
      <p class="problem" role="alert">
        {say(`fault-listen-wrong-${wrong}`, { name })} {say('fault-listen-wrong-else')}
      </p>
    )
  }
  const seconds = fixed(recording?.seconds ?? 0, 1, settings)
  return (
    <div class="listen-recording">
      <p role="status">
        {state === 'reading'
          ? say('fault-listen-reading', { name })
          : say(`fault-listen-${state === 'which' ? 'long' : 'recording'}`, { name, seconds })}
        {recording?.cut === true && ` ${say('fault-listen-cut')}`}
      </p>
      {recording !== null && state !== 'reading' && recording.seconds > LONGEST && (
        <Part key={recording.name} from={from} seconds={recording.seconds} onFrom={onFrom} />
      )}
    </div>
  )
}

interface PartProperties {
  readonly from: number
  readonly seconds: number
  readonly onFrom: (from: number) => void
}

function Part({ from, seconds, onFrom }: PartProperties) {
  const id = useId()
  const [text, setText] = useState(`${from}`)
  const latest = Math.floor(seconds - 1)
  const wanted = Number(text)
  const isWrong = text.trim() === '' || !(wanted >= 0 && wanted <= latest)
  return (
    <form
      class="listen-part"
      onSubmit={event => {
        event.preventDefault()
        if (!isWrong) onFrom(wanted)
      }}
    >
      <label for={id}>{say('fault-listen-from', { latest: `${latest}` })}</label>
      <input
        id={id}
        type="number"
        inputMode="decimal"
        min="0"
        max={latest}
        step="any"
        value={text}
        aria-invalid={isWrong}
        onInput={event => setText(event.currentTarget.value)}
      />
      <button type="submit" class="chip" disabled={isWrong}>
        {say('fault-listen-from-there')}
      </button>
    </form>
  )
}
