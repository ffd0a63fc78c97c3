import type { Show, Totals } from '../../../generated/contract'
import { say } from '../../base/words'
import { equipmentName } from './names'

interface Properties {
  readonly show: Show
  readonly totals: Totals
}

/** What joins equipment besides the lines, and what splits take. */
export function OtherLeads({ show, totals: { links, splits } }: Properties) {
  return (
    <>
      {splits.length > 0 && (
        <section class="splits">
          <h3>{say('stage-pack-splits')}</h3>
          <ul>
            {splits.map(({ split, used }) => (
              <li key={split}>{say('stage-so-many', { count: `${used}`, name: say(`stage-pack-split-${split}`) })}</li>
            ))}
          </ul>
        </section>
      )}
      {links.length > 0 && (
        <section class="links">
          <h3>{say('stage-pack-links')}</h3>
          <ul>
            {links.map(({ kind, optical, links }) => (
              <li key={`${kind}-${optical}`}>
                <strong>{say('stage-so-many', { count: `${links.length}`, name: say(`stage-link-${kind}`) })}</strong>
                {optical && `, ${say('stage-pack-fibre')}`}: {links.map(id => linkText(show, id)).join('; ')}
              </li>
            ))}
          </ul>
          <p class="hint">{say('stage-pack-links-hint')}</p>
        </section>
      )}
    </>
  )
}

/** What a link is called, from where to where it goes, and what else there is to say. */
function linkText(show: Show, id: string): string {
  const link = show.links.find(link => link.id === id)
  if (link === undefined) return id
  const ends = [link.from, link.to].map(end => equipmentName(show, end) || '–').join(' – ')
  return [link.name === '' ? ends : `${link.name} (${ends})`, link.note].filter(text => text !== '').join(', ')
}
