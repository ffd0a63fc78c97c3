import { useEffect, useState } from 'preact/hooks'
import { say } from '../base/words'
import { whole } from '../screen/address'
import { writeLesson } from '../screen/link'
import { QrPicture, qrPath } from '../share/qr-code'
import { COLLECT, pack, writeLessonAddress } from './address'
import type { LessonState } from './lesson-state'
import { resultOf } from './result-file'

/** Figures of a curve in a code: many times finer than a hand draws. */
const FIGURES = 4

/** The result as a picture for the camera of the trainer's device. */
export function ResultCode({ state, name }: { readonly state: LessonState; readonly name: string }) {
  const [shown, setShown] = useState(false)
  const link = useLink(state, name, shown)
  const code = link === '' ? null : qrPath(link)
  return (
    <>
      <button type="button" class="chip" aria-expanded={shown} onClick={() => setShown(!shown)}>
        {say('lesson-result-code')}
      </button>
      {shown && link !== '' && (
        <figure class="qr">
          {code === null ? (
            <p>{say('lesson-result-long')}</p>
          ) : (
            <QrPicture code={code} name={say('lesson-result-picture')} />
          )}
          <figcaption>
            <p>{say(/^https?:/.test(link) ? 'lesson-result-code-hint' : 'qr-file')}</p>
            <code>{link}</code>
          </figcaption>
        </figure>
      )}
    </>
  )
}

/** The address that carries the result; empty until it is packed. */
function useLink(state: LessonState, name: string, wanted: boolean): string {
  const [link, setLink] = useState('')
  useEffect(() => {
    if (!wanted) return
    let isNewest = true
    void pack(JSON.stringify(resultOf(state, name), coarse)).then(result => {
      if (!isNewest || result === null) return
      setLink(
        whole(
          writeLesson(
            writeLessonAddress({
              // A lesson without a name is collected all the same.
              what: encodeURIComponent(state.lesson.id) || COLLECT,
              seed: null,
              step: null,
              view: '',
              result,
            }),
          ),
        ),
      )
    })
    return () => {
      isNewest = false
    }
  }, [state, name, wanted])
  return link
}

function coarse(_: string, value: unknown): unknown {
  return typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(FIGURES)) : value
}
