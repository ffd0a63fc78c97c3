// One sound at a time: whoever begins one ends those of other frames, windows and tabs. Those of
// another origin, and in some browsers those of files, are out of reach.

const NAME = 'stageohm-sound'

export class SoleSound {
  readonly #onOther: () => void
  #channel: BroadcastChannel | null = null

  constructor(onOther: () => void) {
    this.#onOther = onOther
  }

  /** Ends the others, and listens until it ends itself. */
  begin(): void {
    this.end()
    try {
      const channel = new BroadcastChannel(NAME)
      channel.onmessage = () => this.#channel === channel && this.#onOther()
      channel.postMessage(null)
      this.#channel = channel
    } catch {
      // There is none here, so there is nobody to reach.
    }
  }

  end(): void {
    this.#channel?.close()
    this.#channel = null
  }
}
