import type { Problem as Trouble } from '../../generated/contract'

interface Properties {
  readonly problem: Trouble
  /** Called with one of the texts that would be understood. */
  readonly onTake: (text: string) => void
}

/** What is wrong with an input, with texts to choose from. */
export function Problem({ problem: { message, offers }, onTake }: Properties) {
  return (
    <div class="problem" data-problem>
      <p>{message}</p>
      {offers.map(offer => (
        <button key={offer} type="button" class="chip" onClick={() => onTake(offer)}>
          {offer}
        </button>
      ))}
    </div>
  )
}
