import type { RefObject } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import { fileName } from '../../base/download'
import { Save } from '../../base/save'
import { say } from '../../base/words'
import { HELD, type Capture } from './capture'
import { hasMicrophone, useInputs } from './use-inputs'
import type { Microphone } from './use-microphone'
import { wavOf } from './wav'

/** Turns the microphone on, and chooses which. */
export function StartMicrophone({ microphone }: { readonly microphone: Microphone }) {
  const { state, capture, start } = microphone
  const inputs = useInputs(state)
  const [device, setDevice] = useState('')
  const button = useRef<HTMLButtonElement>(null)
  useFocusHere(button, state === 'off')
  if (!hasMicrophone()) return <p>{say('fault-listen-no-microphone')}</p>
  return (
    <>
      {state === 'off' && (
        <button ref={button} type="button" class="chip listen-start" onClick={() => start(device)}>
          {say('fault-listen-start')}
        </button>
      )}
      {inputs.length > 1 && (
        <select
          aria-label={say('fault-listen-device')}
          value={capture?.device ?? device}
          onChange={({ currentTarget: { value } }) => {
            setDevice(value)
            if (state !== 'off') start(value)
          }}
        >
          <option value="">{say('fault-listen-device-usual')}</option>
          {inputs.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      )}
    </>
  )
}

/** Whether the microphone is on, in sight as long as it is, or why it is not. */
export function MicrophoneMark({ microphone: { state, capture, why, stop } }: { readonly microphone: Microphone }) {
  const button = useRef<HTMLButtonElement>(null)
  useFocusHere(button, state !== 'off')
  if (state === 'off') {
    return why === null ? null : (
      <p class={why === 'hidden' || why === 'idle' ? 'hint' : 'problem'} role="alert">
        {say(`fault-listen-off-${why}`)}
      </p>
    )
  }
  return (
    <div class="listen-on" data-state={state}>
      <p>
        <strong>{say(state === 'on' ? 'fault-listen-on' : 'fault-listen-asking')}</strong>
        {capture !== null && capture.name !== '' && <span class="hint">{capture.name}</span>}
      </p>
      <button ref={button} type="button" class="chip" onClick={stop}>
        {say('fault-listen-stop')}
      </button>
    </div>
  )
}

/** Of two buttons that take turns, the one that comes gets the focus that the other one had. */
function useFocusHere(button: RefObject<HTMLButtonElement | null>, isThere: boolean): void {
  const wasThere = useRef(isThere)
  useEffect(() => {
    const isLost = document.activeElement === null || document.activeElement === document.body
    if (isThere && !wasThere.current && isLost) button.current?.focus({ preventScroll: true })
    wasThere.current = isThere
  }, [button, isThere])
}

/** What the browser did not do as it was asked, and a way to keep what comes in. */
export function CaptureView({ capture }: { readonly capture: Capture }) {
  const named = (ids: Capture['refused']) => ids.map(id => say(`fault-listen-${id.toLowerCase()}`)).join(', ')
  const { refused, untold } = capture
  return (
    <>
      {refused.length > 0 && <p class="listen-refused">{say('fault-listen-processed', { what: named(refused) })}</p>}
      {untold.length > 0 && <p class="hint">{say('fault-listen-untold', { what: named(untold) })}</p>}
      <div class="tools">
        <Save
          name={say('fault-listen-keep', { seconds: `${HELD}` })}
          content={() => Promise.resolve(new Blob([wavOf(capture.last(HELD), capture.rate)]))}
          type="audio/wav"
          file={() => fileName(['heard'], 'wav')}
        />
        <span class="hint">{say('fault-listen-keep-hint')}</span>
      </div>
    </>
  )
}
