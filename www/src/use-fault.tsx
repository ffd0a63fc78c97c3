import type { fault } from './fault/fault-part'
import { lateScreen, useLateScreen } from './late-screen'

const wantFault = lateScreen<typeof fault>('fault')

/** The finder of faults, once it and the engine have come. */
export function Fault({ rest }: { readonly rest: string }) {
  const { come, awaited } = useLateScreen(wantFault, 'seek')
  return come === null ? awaited : <come.Fault rest={rest} />
}
