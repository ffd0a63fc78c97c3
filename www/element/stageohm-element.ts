// <stageohm-calculator> for the page of a lesson: a sandboxed frame with the
// calculator, as tall as what is in it.
//
//   <script src="…/stageohm-element.js" defer></script>
//   <stageohm-calculator calculator="pickup" values="load_r=10k&lead_length=6_m"
//     open="load_r" lock="lead_length" theme="dark" title="Pickup"></stageohm-calculator>
//   <stageohm-calculator entry="lead-xlr" title="XLR lead"></stageohm-calculator>
//
// `values`, `open`, `lock` and `hide` are written as in the address of a screen; in their
// place `screen` may give a whole address from its `#` on. `title` is what screen
// readers call the frame. `language` is the code of a language of the page; without it
// the frame is in English. What stands inside the element, such as a link, is shown
// until the calculator has opened, and in its place where it cannot: without this
// script, or without a network, where a frame of another origin has no worker that
// keeps it at hand.

import type { HeightMessage } from '../src/screen/embed'

/** Written in by the build: the languages beside English, each of which has a page of its own. */
declare const LANGUAGES: readonly string[]

const NAME = 'stageohm-calculator'
const script = document.currentScript instanceof HTMLScriptElement ? document.currentScript.src : location.href
/** Nobody's calculator is taller than this, so no message makes a page endless. */
const MOST = 30_000
/**
 * How long a frame that has loaded may be on the screen until its calculator tells its
 * height, in milliseconds. Away from the screen a browser lets it wait, so that counts for nothing.
 */
const PATIENCE = 10_000

class StageohmCalculator extends HTMLElement {
  static readonly observedAttributes = [
    'screen',
    'calculator',
    'entry',
    'values',
    'open',
    'lock',
    'hide',
    'working',
    'theme',
    'language',
    'title',
  ]
  #frame: HTMLIFrameElement | null = null
  /** Whether it is in a page. */
  #isPlaced = false
  /** What its author wrote inside. */
  #inside: Node[] = []
  #late: ReturnType<typeof setTimeout> | undefined
  #seen: IntersectionObserver | null = null
  readonly #online = () => this.#show()
  readonly #heard = ({ source, data }: MessageEvent<Partial<HeightMessage> | null>) => {
    if (this.#frame === null || source !== this.#frame.contentWindow || data?.type !== 'stageohm:height') return
    if (typeof data.height === 'number' && data.height > 0) {
      this.#frame.style.height = `${Math.min(data.height, MOST)}px`
      this.#stopWaiting()
      // It may have told before all of it had loaded.
      this.#frame.onload = null
      for (const node of this.#inside) node.parentNode?.removeChild(node)
    }
  }

  connectedCallback(): void {
    addEventListener('message', this.#heard)
    addEventListener('online', this.#online)
    this.#isPlaced = true
    this.#show()
  }

  disconnectedCallback(): void {
    removeEventListener('message', this.#heard)
    removeEventListener('online', this.#online)
    this.#isPlaced = false
    this.#stopWaiting()
  }

  attributeChangedCallback(): void {
    if (this.#isPlaced) this.#show()
  }

  /** A new frame each time, or each change would be a step in the history of the page. */
  #show(): void {
    const language = this.getAttribute('language') ?? ''
    const isThere = LANGUAGES.includes(language)
    const address = new URL(isThere ? `stageohm-${language}.html` : 'stageohm.html', script)
    address.hash = this.getAttribute('screen') ?? this.#screen()
    // What lies on a disk needs no network.
    if (!navigator.onLine && address.protocol !== 'file:') return
    if (this.#frame?.src === address.href) {
      this.#frame.title = this.title
      return
    }
    const frame = document.createElement('iframe')
    frame.setAttribute('sandbox', 'allow-scripts allow-downloads allow-popups allow-popups-to-escape-sandbox')
    frame.allow = 'clipboard-write'
    frame.loading = 'lazy'
    frame.title = this.title
    frame.src = address.href
    const height = this.#frame?.style.height ?? (/[?&]open\b/.test(address.hash) ? '700px' : '900px')
    Object.assign(frame.style, { display: 'block', width: '100%', height, border: '0' })
    if (this.#frame === null && this.#inside.length === 0) this.#inside = [...this.childNodes]
    this.#frame?.remove()
    this.#stopWaiting()
    // A frame that shows the browser's own page of errors has loaded too.
    frame.onload = () => this.#wait(frame)
    this.#frame = frame
    this.append(frame)
  }

  #wait(frame: HTMLIFrameElement): void {
    this.#stopWaiting()
    this.#seen = new IntersectionObserver(changes => {
      clearTimeout(this.#late)
      if (changes.at(-1)?.isIntersecting) this.#late = setTimeout(() => this.#giveUp(frame), PATIENCE)
    })
    this.#seen.observe(frame)
  }

  #stopWaiting(): void {
    this.#seen?.disconnect()
    clearTimeout(this.#late)
  }

  /** What stands inside is left or comes back, until the network is back or the page is loaded anew. */
  #giveUp(frame: HTMLIFrameElement): void {
    if (this.#frame !== frame) return
    // Nor is it on the screen while its tab is not.
    if (document.hidden) return this.#wait(frame)
    this.#stopWaiting()
    frame.remove()
    this.#frame = null
    this.append(...this.#inside)
  }

  #screen(): string {
    const given = (name: string) => this.getAttribute(name) ?? ''
    const written = (names: string[]) => names.filter(name => given(name) !== '').map(name => `${name}=${given(name)}`)
    if (this.hasAttribute('entry')) return `#1/look-up/${given('entry')}?${['lesson', ...written(['theme'])].join('&')}`
    const pieces = written(['open', 'lock', 'hide', 'theme'])
    // With no field open the frame is compact all the same.
    if (this.getAttribute('open') === '') pieces.unshift('open')
    if (this.hasAttribute('working')) pieces.push('show=working')
    return `#1/${given('calculator')}/${given('values')}?${['lesson', ...pieces].join('&')}`
  }
}

/** Who opens nothing but a lesson has the calculators at hand too, where both come from the same host. */
function keepAtHand(): void {
  const worker = new URL('service-worker.js', script)
  if (worker.origin !== location.origin || window.top !== window) return
  void navigator.serviceWorker?.register(worker).catch(() => undefined)
}

// A page may name this script more than once.
if (customElements.get(NAME) === undefined) {
  customElements.define(NAME, StageohmCalculator)
  keepAtHand()
}
