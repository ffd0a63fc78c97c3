import { useState } from 'preact/hooks'
import { useStore } from '../screen/store'
import { say } from '../base/words'
import { QrPicture, qrPath } from './qr-code'

/** The link as a picture for the camera of another device, drawn without a network. */
export function QrCode({ link }: { readonly link: () => string }) {
  const [shown, setShown] = useState(false)
  // The code follows what is typed while it is on the screen.
  useStore(({ place }) => (shown ? place : null))
  return (
    <>
      <button type="button" class="chip" aria-expanded={shown} onClick={() => setShown(!shown)}>
        {say('qr')}
      </button>
      {shown && <Code text={link()} />}
    </>
  )
}

function Code({ text }: { readonly text: string }) {
  const code = qrPath(text)
  return (
    <figure class="qr">
      {code === null ? <p>{say('qr-long')}</p> : <QrPicture code={code} name={say('qr-picture')} />}
      <figcaption>
        {!/^https?:/.test(text) && <p>{say('qr-file')}</p>}
        <code>{text}</code>
      </figcaption>
    </figure>
  )
}
