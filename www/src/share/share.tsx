import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import { whole } from '../screen/address'
import { Copy } from '../base/copy'
import { fileName } from '../base/download'
import { printOut } from './print-out'
import { QrCode } from './qr'
import { SavePage } from './save-page'
import { savedPage } from '../screen/save-page'
import { currentHash } from '../screen/shown'
import { getState } from '../screen/store'
import { say } from '../base/words'

interface Properties {
  readonly title: string
  /** In the names of files. */
  readonly name: string
  readonly children?: ComponentChildren
}

/** The link that shows this screen as it is. */
export function Share({ title, name, children }: Properties) {
  const link = () => whole(currentHash())
  const [refused, setRefused] = useState<'print-refused' | 'share-refused' | null>(null)
  const share = () =>
    navigator.share({ title, url: link() }).catch((error: unknown) => {
      // Closing the sheet is an error too, and nothing to tell.
      if (error instanceof DOMException && error.name === 'NotAllowedError') setRefused('share-refused')
    })
  return (
    <section class="share" aria-labelledby="share">
      <h2 id="share">{say('share')}</h2>
      <div class="tools">
        <Copy text={link} name={say('share-copy')} />
        {'share' in navigator && location.protocol !== 'file:' && (
          <button type="button" class="chip" onClick={share}>
            {say('share-send')}
          </button>
        )}
        <button type="button" class="chip" onClick={() => printOut() || setRefused('print-refused')}>
          {say('print')}
        </button>
        <span role="status">{refused !== null && say(refused)}</span>
        <SavePage label={say('save-page')} page={pageAsShown} file={() => fileName([name], 'html')} />
        <QrCode link={link} />
      </div>
      {children}
    </section>
  )
}

/** The page as one file, which opens on this screen. */
function pageAsShown(second: string): Promise<string> {
  const { settings, theme, working } = getState()
  return savedPage({ hash: currentHash(), settings, theme, working }, second)
}
