import { flush } from './address'
import { Copy } from './copy'
import { say } from './words'

/** The link that shows this screen as it is. */
export function Share({ title }: { readonly title: string }) {
  const link = () => {
    flush()
    return location.href
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
