import { language } from '../../base/language'

/** A moment as the reader reads it. */
export function when(at: number): string {
  return new Intl.DateTimeFormat(language === 'en' ? 'en-GB' : language, {
    dateStyle: 'medium',
    timeStyle: 'short',
  }).format(at)
}
