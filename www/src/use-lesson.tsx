import { lateScreen, useLateScreen } from './late-screen'
import type { lesson } from './lesson/part/lesson-part'

const wantLesson = lateScreen<typeof lesson>('lesson')

/** The lessons, once they and the engine have come. */
export function Lessons({ rest }: { readonly rest: string }) {
  const { come, awaited } = useLateScreen(wantLesson, 'learn')
  return come === null ? awaited : <come.Lessons rest={rest} />
}
