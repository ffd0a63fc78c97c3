import type { LearningSystem } from './learning-system'
import { VERSION, type Attempt, type ToLesson } from './messages'
import { reason } from './reason'
import { waits } from './waits'

/** Brings attempts to a learning system, one after the other; what it refuses is offered again. */
export class Keeper {
  readonly #system: LearningSystem
  readonly #say: (message: ToLesson) => void
  /** What came last is what counts; nothing overtakes what is on its way. */
  #next: Attempt | null = null
  #refused: Attempt | null = null
  #keeping = Promise.resolve()
  #wait = waits()

  constructor(system: LearningSystem, say: (message: ToLesson) => void) {
    this.#system = system
    this.#say = say
  }

  keep(attempt: Attempt): Promise<void> {
    this.#next = attempt
    this.#keeping = this.#keeping.then(() => this.#keepNext())
    return this.#keeping
  }

  /** Once all is kept that came; what was refused last is offered once more. */
  async all(): Promise<void> {
    await this.#keeping
    if (this.#refused !== null) await this.keep(this.#refused)
  }

  async #keepNext(): Promise<void> {
    const attempt = this.#next
    if (attempt === null) return
    this.#next = null
    this.#refused = null
    let why = ''
    try {
      await this.#system.keep(attempt)
      this.#wait = waits()
    } catch (error) {
      why = reason(error)
      this.#refused = attempt
      setTimeout(() => this.#again(attempt), this.#wait())
    }
    this.#say({ type: 'stageohm:launch', version: VERSION, what: 'kept', taken: this.#refused === null, why })
  }

  /** Unless something newer came. */
  #again(attempt: Attempt): void {
    if (this.#refused === attempt && this.#next === null) void this.keep(attempt)
  }
}
