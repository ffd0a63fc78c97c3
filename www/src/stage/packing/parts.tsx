import type { ComponentChildren } from 'preact'
import type { GearKind, PartCount, Verdict } from '../../../generated/contract'
import { VerdictView } from '../../answer/reading'
import { Wide } from '../../base/wide'
import { say } from '../../base/words'

const KINDS = ['di', 'isolator', 'pad', 'source', 'input'] as const satisfies readonly GearKind[]

/** All gear but leads that is used, by kind, against the drawer. */
export function Parts({ parts }: { readonly parts: readonly PartCount[] }) {
  return (
    <CountTable caption={say('stage-pack-gear')} first={say('stage-pack-what')}>
      {KINDS.map(kind => {
        const these = parts.filter(part => part.kind === kind)
        const used = these.reduce((sum, part) => sum + part.used, 0)
        return (
          these.length > 0 && (
            <tbody key={kind}>
              <tr class="group">
                <th scope="rowgroup">{say(`stage-kind-${kind}`)}</th>
                <td>{used}</td>
                <td />
                <td />
              </tr>
              {these.map(({ id, name, used, have, missing }) => (
                <Counted key={id} name={name} used={used} have={have} missing={missing} />
              ))}
            </tbody>
          )
        )
      })}
    </CountTable>
  )
}

interface TableProperties {
  readonly caption: string
  /** What stands in the first column. */
  readonly first: string
  readonly children: ComponentChildren
}

/** What is counted against the drawer. */
export function CountTable({ caption, first, children }: TableProperties) {
  return (
    <Wide name={caption}>
      <table class="packed">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{first}</th>
            <th scope="col">{say('stage-pack-used')}</th>
            <th scope="col">{say('stage-pack-have')}</th>
            <th scope="col">{say('stage-pack-enough')}</th>
          </tr>
        </thead>
        {children}
      </table>
    </Wide>
  )
}

type CountedProperties = Pick<PartCount, 'name' | 'used' | 'have' | 'missing'>

export function Counted({ name, used, have, missing }: CountedProperties) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{used}</td>
      <td>{have ?? '–'}</td>
      <td>
        <VerdictView verdict={enough(have, missing)} />
      </td>
    </tr>
  )
}

function enough(have: number | null, missing: number): Verdict {
  if (missing > 0) return { tone: 'trouble', text: say('stage-pack-missing', { count: `${missing}` }) }
  if (have === null) return { tone: 'watch', text: say('stage-pack-uncounted') }
  return { tone: 'fine', text: say('stage-pack-is-enough') }
}
