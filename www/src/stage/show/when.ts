import { getState } from '../../screen/store'

/** A moment as the reader reads it. */
export function when(at: number): string {
  return new Intl.DateTimeFormat(getState().settings.language === 'en' ? 'en-GB' : undefined, {
    dateStyle: 'medium',
    timeStyle: 'short',
  }).format(at)
}
