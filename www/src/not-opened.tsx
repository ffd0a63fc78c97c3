import { useEffect, useRef, useState } from 'preact/hooks'
import { ByHand } from './base/by-hand'
import { whenNotOpened } from './screen/address'
import { say } from './base/words'

/** In a frame that may open nothing: the address, to be taken elsewhere by hand. */
export function NotOpened() {
  const [url, setUrl] = useState<string | null>(null)
  const box = useRef<HTMLDivElement>(null)
  useEffect(() => whenNotOpened(setUrl), [])
  // It may be far from the link.
  useEffect(() => box.current?.scrollIntoView({ block: 'nearest' }), [url])
  if (url === null) return null
  return (
    <div class="notice" role="alert" ref={box}>
      <p>{say('open-refused')}</p>
      <ByHand text={url} />
      <button type="button" class="chip" onClick={() => setUrl(null)}>
        {say('close')}
      </button>
    </div>
  )
}
