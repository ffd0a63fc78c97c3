// <stageohm-calculator> for the page of a lesson: a sandboxed frame with the
// calculator, as tall as what is in it.
//
//   <script src="…/stageohm-element.js" defer></script>
//   <stageohm-calculator screen="#1/pickup/load_r=10k?lesson" title="Pickup"></stageohm-calculator>
//
// `screen` is the address of a screen from its `#` on; `title` is what screen
// readers call the frame. What stands inside the element is shown where this
// script does not run.

import type { HeightMessage } from '../src/lesson'

const script = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : location.href
/** Nobody's calculator is taller than this, so no message makes a page endless. */
const MOST = 30_000

class StageohmCalculator extends HTMLElement {
  static readonly observedAttributes = ['screen', 'title']
  readonly #frame = document.createElement('iframe')
  readonly #heard = ({ source, data }: MessageEvent<Partial<HeightMessage> | null>) => {
    if (source !== this.#frame.contentWindow || data?.type !== 'stageohm:height') return
    if (typeof data.height === 'number' && data.height > 0) {
      this.#frame.style.height = `${Math.min(data.height, MOST)}px`
    }
  }

  connectedCallback(): void {
    const frame = this.#frame
    frame.setAttribute('sandbox', 'allow-scripts allow-popups allow-popups-to-escape-sandbox')
    frame.loading = 'lazy'
    Object.assign(frame.style, { display: 'block', width: '100%', height: '900px', border: '0' })
    addEventListener('message', this.#heard)
    this.attributeChangedCallback()
    this.replaceChildren(frame)
  }

  disconnectedCallback(): void {
    removeEventListener('message', this.#heard)
  }

  attributeChangedCallback(): void {
    const address = new URL('stageohm.html', script)
    address.hash = this.getAttribute('screen') ?? ''
    if (this.#frame.src !== address.href) this.#frame.src = address.href
    this.#frame.title = this.title
  }
}

customElements.define('stageohm-calculator', StageohmCalculator)
