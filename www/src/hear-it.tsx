import { useCallback, useEffect, useState } from 'preact/hooks'
import type { Description } from '../generated/contract'
import { Missing } from './base/missing'
import { say } from './base/words'
import { lateScreen } from './late-screen'
import { useStore } from './screen/store'
import type { hear } from './hear/hear-part'
import { isHeard } from './hear/sides'

const wantPart = lateScreen<typeof hear>('hear')

/** Where an answer can be heard; all of it comes once this is opened. */
export function HearIt({ description }: { readonly description: Description }) {
  const [open, setOpen] = useState(false)
  const offered = useStore(({ good }) => good !== null && isHeard(good.report))
  if (!offered) return null
  return (
    <details class="hear" open={open} onToggle={event => setOpen(event.currentTarget.open)}>
      <summary>
        <h2>{say('hear')}</h2>
      </summary>
      {open && <Come key={description.id} description={description} />}
    </details>
  )
}

function Come({ description }: { readonly description: Description }) {
  const [come, setCome] = useState<typeof hear | null>(null)
  const [failed, setFailed] = useState(false)
  const again = useCallback(() => {
    setFailed(false)
    wantPart().then(
      come => setCome(come),
      () => setFailed(true),
    )
  }, [])
  useEffect(again, [again])
  return come === null ? <Missing later={{ failed, again }} /> : <come.Panel description={description} />
}
