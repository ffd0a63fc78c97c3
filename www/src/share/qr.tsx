import { encode } from 'uqr'
import { useState } from 'preact/hooks'
import { useStore } from '../screen/store'
import { say } from '../base/words'

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
  const code = draw(text)
  return (
    <figure class="qr">
      {code === null ? (
        <p>{say('qr-long')}</p>
      ) : (
        <svg role="img" aria-label={say('qr-picture')} viewBox={`0 0 ${code.size} ${code.size}`}>
          <rect width={code.size} height={code.size} fill="#fff" />
          <path d={code.path} fill="#000" />
        </svg>
      )}
      <figcaption>
        {!/^https?:/.test(text) && <p>{say('qr-file')}</p>}
        <code>{text}</code>
      </figcaption>
    </figure>
  )
}

/** The dark squares as one path; nothing where the text is too long for a code. */
function draw(text: string): { path: string; size: number } | null {
  try {
    // The quiet zone of ISO/IEC 18004 is four squares wide.
    const { data, size } = encode(text, { ecc: 'L', border: 4 })
    const path = data.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ''))).join('')
    return { path, size }
  } catch {
    return null
  }
}
