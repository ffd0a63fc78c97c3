import type { FunctionComponent } from 'preact'
import { useId, useState } from 'preact/hooks'
import { say } from '../../base/words'
import { Propose } from './propose'
import { TableIn } from './table-in'
import { TableOut } from './table-out'

/** What is done with the whole input list, each in a panel of its own. */
const TOOLS: Readonly<Record<string, FunctionComponent>> = {
  propose: Propose,
  'table-in': TableIn,
  'table-out': TableOut,
}

/** The buttons above the input list, and what the last one opened. */
export function ListTools() {
  const [open, setOpen] = useState<string | null>(null)
  const panel = useId()
  const Panel = open === null ? undefined : TOOLS[open]
  return (
    <div class="list-tools">
      <div class="tools">
        {Object.keys(TOOLS).map(tool => (
          <button
            key={tool}
            type="button"
            class="chip"
            aria-expanded={tool === open}
            aria-controls={tool === open ? panel : undefined}
            onClick={() => setOpen(tool === open ? null : tool)}
          >
            {say(`stage-${tool}`)}
          </button>
        ))}
      </div>
      {Panel !== undefined && (
        <section id={panel} class="list-tool" aria-label={say(`stage-${open}`)}>
          <Panel />
        </section>
      )}
    </div>
  )
}
