import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { CauseOdds, Heard, Through } from '../../../generated/contract'
import { choices, Segments } from '../../base/segments'
import { say } from '../../base/words'
import type { Capture } from './capture'
import type { Curve } from './draw'
import { follow } from './follow'
import { HeardView } from './heard-view'
import { Latest } from './latest'
import { CaptureView, MicrophoneMark, StartMicrophone } from './microphone-view'
import { ChooseRecording, RecordingView } from './recording-view'
import { Spoken } from './spoken'
import { useMicrophone } from './use-microphone'
import { useRecording } from './use-recording'

interface Properties {
  readonly odds: readonly CauseOdds[]
  /** What the reader says is heard. */
  readonly symptom: string
  readonly sound: Latest<Heard | null>
}

/** Listens, by a microphone, a line or a recording, and shows what is heard. */
export function Panel({ odds, symptom, sound }: Properties) {
  const [through, setThrough] = useState<Through>('air')
  const microphone = useMicrophone()
  const { capture } = microphone
  const { opened, open, hear, close } = useRecording(sound.put)
  const { picture, failed } = useFollowed(capture, through, sound)
  const begin = (device: string) => {
    close()
    sound.put(null)
    microphone.start(device)
  }
  const chosen = (file: File) => {
    microphone.stop()
    void open(file, through)
  }
  const change = (next: Through) => {
    setThrough(next)
    if (opened.state === 'heard' && opened.recording !== null) void hear(opened.recording, opened.from, next)
  }
  const hearFrom = (from: number) => {
    if (opened.recording === null) return
    // What was heard elsewhere in it is not what is there.
    sound.put(null)
    void hear(opened.recording, from, through)
  }
  return (
    <div class="listen-panel">
      <ul class="listen-safe" role="list">
        {(microphone.state === 'off' ? ['private', 'caution'] : ['caution']).map(id => (
          <li key={id} data-kind={id}>
            {say(`fault-listen-${id}`)}
          </li>
        ))}
      </ul>
      <Segments
        name="through"
        legend={say('fault-listen-through')}
        options={choices('fault-listen-through', ['air', 'line'])}
        value={through}
        onChoose={change}
      />
      {through === 'air' && <p class="hint">{say('fault-listen-air')}</p>}
      <div class="tools">
        <StartMicrophone microphone={{ ...microphone, start: begin }} />
        {microphone.state === 'off' && <ChooseRecording onFile={chosen} />}
      </div>
      <MicrophoneMark microphone={microphone} />
      <RecordingView opened={opened} onFrom={hearFrom} />
      {failed !== null && <p class="problem">{say('fault-listen-failed', { why: failed })}</p>}
      <HeardView sound={sound} odds={odds} live={capture === null ? null : picture} />
      {capture !== null && <CaptureView capture={capture} />}
      <Spoken symptom={symptom} sound={sound} />
    </div>
  )
}

const NOTHING: Curve = new Float32Array()

/** Draws and hears what comes in. */
function useFollowed(capture: Capture | null, through: Through, sound: Latest<Heard | null>) {
  const picture = useMemo(() => new Latest<Curve>(NOTHING), [])
  const [failed, setFailed] = useState<string | null>(null)
  const newest = useRef(through)
  newest.current = through
  useEffect(() => {
    if (capture === null) return undefined
    setFailed(null)
    picture.put(NOTHING)
    return follow(capture, () => newest.current, {
      picture: picture.put,
      heard: heard => sound.spread(heard),
      failed: setFailed,
    })
  }, [capture, picture, sound])
  return { picture, failed }
}
