import { useEffect, useState } from 'preact/hooks'
import { Copy } from '../../base/copy'
import { fileName } from '../../base/download'
import { isLong } from '../../base/limit'
import { Save } from '../../base/save'
import { say } from '../../base/words'
import { whole } from '../../screen/address'
import { writeLesson } from '../../screen/link'
import { savedPage } from '../../screen/save-page'
import { getState } from '../../screen/store'
import { MOST_BYTES, QrPicture, qrPath } from '../../share/qr-code'
import { SavePage } from '../../share/save-page'
import { pack, writeLessonAddress } from '../address'
import { getDraft, handOut, toHandOut, useDraft } from './draft'

/** Links of more characters are cut short by some messengers and sheets. */
const LONG_LINK = 2000

/** The ways of a lesson to its learners. */
export function TakeAlong() {
  const lesson = useDraft(({ lesson }) => lesson)
  const packed = usePacked()
  const [refused, setRefused] = useState(false)
  const hash = packed === null || packed.data === null ? null : hashOf(packed.data)
  const link = hash === null || isLong(hash) ? null : whole(hash)
  // A saved page begins with the address, too.
  const isTooLong = packed !== null && link === null
  const play = async () => {
    const data = await pack(JSON.stringify(handOut()))
    setRefused(data === null)
    if (data !== null) location.hash = hashOf(data)
  }
  return (
    <section class="edit-along" aria-labelledby="edit-along">
      <h2 id="edit-along">{say('lesson-edit-along')}</h2>
      <div class="tools">
        <button type="button" class="chip lesson-main" onClick={() => void play()}>
          {say('lesson-edit-try')}
        </button>
        <Save
          name={say('lesson-edit-save')}
          content={() => `${JSON.stringify(handOut(), null, 1)}\n`}
          type="application/json"
          file={() => fileName([lesson.id], 'json')}
        />
        {!isTooLong && (
          <SavePage label={say('lesson-edit-save-page')} page={page} file={() => fileName([lesson.id], 'html')} />
        )}
      </div>
      {refused && (
        <p class="problem" role="alert">
          {say('lesson-edit-try-none')}
        </p>
      )}
      {isTooLong && <p class="notice">{say('lesson-edit-link-none', { open: say('lesson-open-file') })}</p>}
      {link !== null && <Link link={link} />}
      <p class="hint">{say('lesson-edit-revision', { id: lesson.id, revision: `${lesson.revision}` })}</p>
    </section>
  )
}

function Link({ link }: { readonly link: string }) {
  const [shown, setShown] = useState(false)
  const fits = link.length <= MOST_BYTES
  const code = shown && fits ? qrPath(link) : null
  return (
    <>
      <p>
        {say('lesson-edit-link-length', { count: `${link.length}` })}
        {!fits && ` ${say('lesson-edit-qr-long')}`}
        {link.length > LONG_LINK && ` ${say('lesson-edit-link-long')}`}
      </p>
      <div class="tools">
        <span class="tools" onClickCapture={() => void handOut()}>
          <Copy text={() => link} name={say('share-copy')} />
        </span>
        {fits && (
          <button
            type="button"
            class="chip"
            aria-expanded={shown}
            onClick={() => {
              handOut()
              setShown(!shown)
            }}
          >
            {say('qr')}
          </button>
        )}
      </div>
      {code !== null && (
        <figure class="qr">
          <QrPicture code={code} name={say('lesson-edit-qr-picture')} />
          {!/^https?:/.test(link) && <figcaption>{say('qr-file')}</figcaption>}
        </figure>
      )}
    </>
  )
}

/** The lesson as an address carries it once it is handed out. */
function usePacked(): { readonly data: string | null } | null {
  const lesson = useDraft(({ lesson }) => lesson)
  const saved = useDraft(({ saved }) => saved)
  const [packed, setPacked] = useState<{ readonly data: string | null } | null>(null)
  useEffect(() => {
    let isNewest = true
    void pack(JSON.stringify(toHandOut({ lesson, saved }))).then(data => isNewest && setPacked({ data }))
    return () => {
      isNewest = false
    }
  }, [lesson, saved])
  return packed
}

function hashOf(what: string): string {
  return writeLesson(writeLessonAddress({ what, seed: null, step: null, view: '' }))
}

/** The page as one file, which begins with this lesson. */
async function page(second: string): Promise<string> {
  const data = await pack(JSON.stringify(handOut()))
  const hash = data === null ? null : hashOf(data)
  if (hash === null || isLong(hash)) throw new Error(`${getDraft().lesson.id} is too long`)
  const { settings, theme } = getState()
  return savedPage({ hash, settings, theme, working: false }, second)
}
