import { Copy } from './copy'
import { writePlace } from './link'
import { filling } from './screen'
import { getState } from './store'
import { say } from './words'

/** The link that shows this screen as it is. */
export function Share({ title }: { readonly title: string }) {
  // Not the address bar's, which lags behind and in some frames does not follow.
  const link = () => {
    const shown = filling()
    const hash = shown === null ? location.hash : writePlace(shown, getState().settings)
    return location.href.replace(/#.*/, '') + hash
  }
  const share = () => navigator.share({ title, url: link() }).catch(() => undefined)
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
        <button type="button" class="chip" onClick={() => print()}>
          {say('print')}
        </button>
      </div>
    </section>
  )
}
