import type { LeadCount, LeadMade, LeadNeed, PartCount } from '../../../generated/contract'
import { Wide } from '../../base/wide'
import { say } from '../../base/words'
import { laid, lengthOf, type PrintLength } from './leads'
import { CountTable, Counted } from './parts'

interface Properties {
  readonly leads: readonly LeadCount[]
  readonly length: PrintLength
  /** What a line is called. */
  readonly line: (id: string) => string
}

/** The leads that go along, by kind and length, and where they lie. */
export function Leads({ leads, length, line }: Properties) {
  return (
    <>
      <CountTable caption={say('stage-pack-leads')} first={say('stage-pack-length')}>
        {leads.map(kind => (
          <tbody key={kind.name}>
            <tr class="group">
              <th scope="rowgroup" colSpan={4}>
                {nameOf(kind)}
              </th>
            </tr>
            {lengthsOf(kind).map(count => (
              <Counted key={count.length} {...count} name={lengthOf(count.length, length)} />
            ))}
          </tbody>
        ))}
      </CountTable>
      <Places leads={leads} length={length} line={line} />
      <p class="hint">{say('stage-pack-one-piece')}</p>
      {leads.some(({ proved }) => !proved) && <p class="hint">{say('stage-pack-joins-found')}</p>}
    </>
  )
}

function nameOf({ name }: LeadCount): string {
  return name || say('stage-pack-no-lead')
}

type LengthCount = Pick<PartCount, 'used' | 'have' | 'missing'> & { readonly length: number }

/** What of a kind goes along, or is missing, by length. */
export function lengthsOf({ pieces, needs, name }: LeadCount): LengthCount[] {
  const counts = new Map<number, LengthCount>()
  const add = (length: number, more: Omit<LengthCount, 'length'>) => {
    const known = counts.get(length)
    const used = (known?.used ?? 0) + more.used
    const missing = (known?.missing ?? 0) + more.missing
    counts.set(length, { length, used, missing, have: known?.have ?? more.have })
  }
  for (const { length, used, have } of pieces) if (used > 0) add(length, { used, have, missing: 0 })
  const known = (length: number) => pieces.find(piece => piece.length === length)
  for (const { length, lines, missing } of needs) {
    // What the lines do not name a lead for is held against nothing.
    if (name === '') add(length, { used: lines.length, have: null, missing: 0 })
    else if (missing > 0)
      add(length, { used: missing, have: known(length) ? (known(length)?.have ?? null) : 0, missing })
  }
  return [...counts.values()].sort((a, b) => a.length - b.length)
}

/** Where the leads lie, and which are joined. */
function Places({ leads, length, line }: Properties) {
  return (
    <Wide name={say('stage-pack-places')}>
      <table class="packed places">
        <caption>{say('stage-pack-places')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('stage-pack-what')}</th>
            <th scope="col">{say('stage-pack-used')}</th>
            <th scope="col">{say('stage-pack-from')}</th>
          </tr>
        </thead>
        {leads.map(kind => (
          <tbody key={kind.name}>
            <tr class="group">
              <th scope="rowgroup" colSpan={3}>
                {nameOf(kind)}
              </th>
            </tr>
            {kind.needs.map((need, place) => (
              <tr key={place}>
                <th scope="row">{needText(need, length)}</th>
                <td>{need.lines.length}</td>
                <td>
                  {need.made.map((made, place) => (
                    <p key={place}>{madeText(need, made, length, line)}</p>
                  ))}
                  {need.missing > 0 && <p>{say('stage-pack-missing', { count: `${need.missing}` })}</p>}
                  {kind.name === '' && <p>–</p>}
                </td>
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </Wide>
  )
}

/** How long, and where; and that nobody states the length, where nobody does. */
function needText({ place, length: metres, assumed }: LeadNeed, length: PrintLength): string {
  const told = say(`stage-pack-place-${place}`, { length: lengthOf(metres, length) })
  return assumed && metres > 0 ? `${told} (${say(`stage-pack-assumed-${place}`)})` : told
}

function madeText(
  { length: metres }: LeadNeed,
  { lines, pieces }: LeadMade,
  length: PrintLength,
  line: (id: string) => string,
): string {
  const told = laid({ length: metres, pieces }, length)
  if (pieces.length === 1) return say('stage-so-many', { count: `${lines.length}`, name: told })
  // Whoever lays it has to know which.
  return `${told}: ${lines.map(line).join(', ')}`
}
