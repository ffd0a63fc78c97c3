import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { CauseOdds, Heard, Through } from '../../../generated/contract'
import { choices, Segments } from '../../base/segments'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import type { Capture } from './capture'
import type { Curve } from './draw'
import { follow } from './follow'
import { HeardView } from './heard-view'
import { Latest, useLatest } from './latest'
import { CaptureView, MicrophoneMark, StartMicrophone } from './microphone-view'
import { ChooseRecording, RecordingView } from './recording-view'
import { briefly, firstFamily } from './told'
import { useMicrophone } from './use-microphone'
import { useRecording } from './use-recording'
import { useSpoken } from './use-spoken'

interface Properties {
  readonly odds: readonly CauseOdds[]
  readonly sound: Latest<Heard | null>
}

/** Listens, by a microphone, a line or a recording, and shows what is heard. */
export function Panel({ odds, sound }: Properties) {
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
  return (
    <div class="listen-panel">
      <ul class="listen-safe" role="list">
        {(microphone.state === 'off' ? ['private', 'caution', 'line'] : ['caution']).map(id => (
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
      <div class="tools">
        <StartMicrophone microphone={{ ...microphone, start: begin }} />
        {microphone.state === 'off' && <ChooseRecording onFile={chosen} />}
      </div>
      <MicrophoneMark microphone={microphone} />
      <RecordingView
        opened={opened}
        onFrom={from => opened.recording !== null && void hear(opened.recording, from, through)}
      />
      {failed !== null && <p class="problem">{say('fault-listen-failed', { why: failed })}</p>}
      <HeardView sound={sound} odds={odds} live={capture === null ? null : picture} />
      {capture !== null && <CaptureView capture={capture} />}
      <Spoken sound={sound} />
    </div>
  )
}

/** Reads out what is heard, when it is something else. */
function Spoken({ sound }: { readonly sound: Latest<Heard | null> }) {
  const settings = useStore(state => state.settings)
  const heard = useLatest(sound)
  const sign = heard === null ? '' : `${firstFamily(heard)} ${heard.flaw} ${heard.mains !== null}`
  return (
    <p class="unseen" role="status">
      {useSpoken(sign, heard === null ? '' : briefly(heard, settings))}
    </p>
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
