import type { LookUpEntry, Table } from '../../generated/contract'
import { csvOf } from '../base/csv'
import { download, fileName } from '../base/download'
import { FaceView } from './face'
import { writeEntry, writeLink } from '../screen/link'
import { kindName } from './kind'
import { Cautions, Warnings } from '../base/warnings'
import { Share } from '../share/share'
import { SeeAlso, SourceList } from '../answer/sources'
import { getState, useStore } from '../screen/store'
import { Wide } from '../base/wide'
import { WiringView } from './wiring'
import { say } from '../base/words'

/** The screen of something to look up. */
export function Reference({ entry }: { readonly entry: LookUpEntry }) {
  const { id, kind, title, text, faces, wiring, table, warnings, cautions, sources, links, see } = entry
  const settings = useStore(state => state.settings)
  return (
    <article class="entry" data-entry={id}>
      <div class="intro">
        <p class="kind">{kindName(kind)}</p>
        <h1 tabIndex={-1}>{title}</h1>
      </div>
      <div class="said">
        {text.map(text => (
          <p key={text}>{text}</p>
        ))}
        <Warnings texts={warnings} />
        <Cautions texts={cautions} />
      </div>
      {(faces.length > 0 || wiring !== null || table !== null) && (
        <div class="shown">
          {faces.length > 0 && (
            <div class="faces">
              {faces.map(face => (
                <FaceView key={face.name} face={face} />
              ))}
            </div>
          )}
          {wiring !== null && <WiringView wiring={wiring} title={title} />}
          {table !== null && <TableView table={table} title={title} id={id} />}
        </div>
      )}
      <div class="beyond">
        <SeeAlso
          links={[
            ...see.map(({ id, title }) => ({ text: title, href: writeEntry(id) })),
            ...links.map(link => ({
              text: `${kindName('calculator')}: ${link.text}`,
              href: writeLink(link, settings),
            })),
          ]}
        />
        <SourceList texts={sources} />
        <Share title={title} name={id} />
      </div>
    </article>
  )
}

interface TableProperties {
  readonly table: Table
  readonly title: string
  readonly id: string
}

function TableView({ table: { columns, rows }, title, id }: TableProperties) {
  return (
    <Wide name={title}>
      <table class="looked-up">
        <caption class="unseen">{title}</caption>
        <thead>
          <tr>
            {columns.map(({ name, unit }, index) => (
              <th key={index} scope="col" data-words={unit === null}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, row) => (
            <tr key={row}>
              {cells.map(({ text }, index) =>
                index === 0 ? (
                  <th key={index} scope="row" data-words={columns[index]?.unit === null}>
                    {text}
                  </th>
                ) : (
                  <td key={index} data-words={columns[index]?.unit === null}>
                    {text}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
      <div class="tools">
        <button
          type="button"
          class="chip"
          onClick={() => {
            const cells = [
              columns.map(({ name }) => name),
              ...rows.map(row => row.map(({ text, exact }) => exact ?? text)),
            ]
            download(csvOf(cells, getState().settings), 'text/csv', fileName([id], 'csv'))
          }}
        >
          {say('export-csv')}
        </button>
      </div>
    </Wide>
  )
}
