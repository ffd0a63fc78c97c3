import type { InputLine } from '../../../generated/contract'

/** A column of a table of lines. */
export interface LineColumn {
  readonly id: string
  readonly head: string
  readonly cell: (line: InputLine) => string
}

interface Properties {
  readonly lines: readonly InputLine[]
  readonly columns: readonly LineColumn[]
  readonly class?: string
  readonly caption?: string
}

/** Lines as rows; a column in which nothing stands takes no room from the others. */
export function LinesTable({ lines, columns, class: name, caption }: Properties) {
  const rows = lines.map(line => ({ line, cells: columns.map(({ cell }) => cell(line)) }))
  const shown = columns.map((column, place) => ({ ...column, place }))
  const used = shown.filter(({ place }) => rows.some(({ cells }) => cells[place] !== ''))
  return (
    <table class={name}>
      {caption !== undefined && <caption>{caption}</caption>}
      <thead>
        <tr>
          {used.map(({ id, head }) => (
            <th key={id} scope="col" data-column={id}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ line, cells }) => (
          <tr key={line.id}>
            {used.map(({ id, place }) => (
              <td key={id} data-column={id}>
                {cells[place]}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
