import type { ComponentChildren } from 'preact'
import type { LookUpEntry, Table } from '../../generated/contract'
import { csvOf } from '../base/csv'
import { fileName } from '../base/download'
import { Save } from '../base/save'
import { FaceView } from './face'
import { writeEntry, writeLink } from '../screen/link'
import { kindName } from './kind'
import { Cautions, Warnings } from '../base/warnings'
import { EntryPanel } from '../share/entry-panel'
import { Share } from '../share/share'
import { SeeAlso, SourceList } from '../answer/sources'
import { getState, isEmbedded, useStore } from '../screen/store'
import { Wide } from '../base/wide'
import { WiringView } from './wiring'
import { say } from '../base/words'

interface Properties {
  readonly entry: LookUpEntry
  /** What stands beside the title. */
  readonly beside: ComponentChildren
}

/** The screen of something to look up. */
export function Reference({ entry, beside }: Properties) {
  const { id, kind, title, text, faces, wiring, table, warnings, cautions, sources, links, see } = entry
  const settings = useStore(state => state.settings)
  const embedded = useStore(isEmbedded)
  return (
    <article class="entry" data-entry={id}>
      <div class="intro">
        <p class="kind">{kindName(kind)}</p>
        <div class="titled">
          <h1 tabIndex={-1}>{title}</h1>
          {beside}
        </div>
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
              {faces.map((face, index) => (
                <FaceView key={face.name} face={face} file={`${id}-${index + 1}`} />
              ))}
            </div>
          )}
          {wiring !== null && <WiringView wiring={wiring} title={title} file={id} />}
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
        {!embedded && (
          <Share title={title} name={id}>
            <EntryPanel id={id} title={title} />
          </Share>
        )}
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
        <Save
          name={say('export-csv')}
          content={() => {
            const cells = [
              columns.map(({ name }) => name),
              ...rows.map(row => row.map(({ text, exact }) => exact ?? text)),
            ]
            return csvOf(cells, getState().settings)
          }}
          type="text/csv"
          file={() => fileName([id], 'csv')}
        />
      </div>
    </Wide>
  )
}
