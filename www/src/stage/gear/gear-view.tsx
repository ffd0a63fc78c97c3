import { useRef, useState } from 'preact/hooks'
import type { GearKind } from '../../../generated/contract'
import { say } from '../../base/words'
import { descriptionOf } from '../../screen/descriptions'
import { useStore } from '../../screen/store'
import { DoneLine, useDone } from '../show/done'
import { useProject } from '../show/project'
import { WHOLE_LINE } from '../show/values'
import { AddGear } from './add-gear'
import { GearCard } from './gear-card'
import { fieldsOf, KINDS } from './kinds'
import { MoveGear } from './move-gear'

/** The drawer: the gear that one has, by kind. */
export function GearView() {
  const gear = useProject(({ show }) => show.gear)
  const [open, setOpen] = useState<string | null>(null)
  const [done, note] = useDone()
  const heading = useRef<HTMLHeadingElement>(null)
  const told = (text: string, opened: string | null) => {
    setOpen(opened)
    note(text)
    // What had the focus is gone.
    if (opened === null) heading.current?.focus()
  }
  return (
    <section class="gear" aria-labelledby="gear">
      <h2 id="gear" tabIndex={-1} ref={heading}>
        {say('stage-view-gear')}
      </h2>
      <p class="hint">{say('stage-gear-hint')}</p>
      <AddGear onAdded={told} />
      <DoneLine done={done} />
      {gear.length === 0 && <p>{say('stage-gear-none')}</p>}
      {KINDS.map(kind => (
        <Kind key={kind} kind={kind} open={open} onOpen={setOpen} onDone={told} />
      ))}
      <MoveGear onDone={note} />
    </section>
  )
}

interface KindProperties {
  readonly kind: GearKind
  readonly open: string | null
  readonly onOpen: (id: string | null) => void
  readonly onDone: (text: string, opened: string | null) => void
}

/** The gear of one kind; nothing where there is none. */
function Kind({ kind, open, onOpen, onDone }: KindProperties) {
  const gear = useProject(({ show }) => show.gear)
  const description = useStore(({ settings }) => descriptionOf(WHOLE_LINE, settings))
  const places = gear.flatMap((one, place) => (one.kind === kind ? [place] : []))
  if (places.length === 0 || description === undefined) return null
  const fields = fieldsOf(kind, description)
  return (
    <section aria-labelledby={`gear-${kind}`}>
      <h3 id={`gear-${kind}`}>{say(`stage-drawer-${kind}`)}</h3>
      <ul class="gear-list">
        {places.map(place => {
          const one = gear[place]
          return (
            one !== undefined && (
              <GearCard
                key={one.id}
                gear={one}
                place={place}
                fields={fields}
                open={open === one.id}
                onOpen={isOpen => onOpen(isOpen ? one.id : null)}
                onDone={onDone}
              />
            )
          )
        })}
      </ul>
    </section>
  )
}
