import { say } from '../base/words'

interface Properties {
  /** `danger`, or `meter` for a reading that counts as such. */
  readonly why: string
  readonly onBack: () => void
}

/** Nothing but to stop. */
export function Stop({ why, onBack }: Properties) {
  return (
    <section class="fault-stop" aria-labelledby="fault-stop" data-stop={why}>
      <h2 id="fault-stop" tabIndex={-1} data-focus>
        {say('fault-stop-now')}
      </h2>
      <ol>
        <li>{say('fault-stop-touch')}</li>
        <li>{say('fault-stop-off')}</li>
        <li>{say('fault-stop-call')}</li>
      </ol>
      {why === 'meter' && <p>{say('fault-stop-meter')}</p>}
      <button type="button" class="chip" onClick={onBack}>
        {say(why === 'meter' ? 'fault-stop-meter-back' : 'fault-stop-back')}
      </button>
    </section>
  )
}
