import { say } from '../base/words'

export interface ReadingsRow {
  readonly id: string
  readonly name: string
  readonly cells: readonly string[]
}

interface Properties {
  /** What stands over the cells of each row. */
  readonly heads: readonly string[]
  readonly rows: readonly ReadingsRow[]
}

/** Readings by name, and what there is to say of each. */
export function ReadingsTable({ heads, rows }: Properties) {
  return (
    <table class="lesson-measures">
      <caption class="unseen">{say('lesson-measures')}</caption>
      <ReadingsHead heads={heads} />
      <tbody>
        {rows.map(({ id, name, cells }) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            {cells.map((cell, place) => (
              <td key={place}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** What stands over readings by name, and over the cells of each row. */
export function ReadingsHead({ heads }: Pick<Properties, 'heads'>) {
  return (
    <thead>
      <tr>
        {[say('lesson-measure-reading'), ...heads].map(head => (
          <th key={head} scope="col">
            {head}
          </th>
        ))}
      </tr>
    </thead>
  )
}
