import { toldOfLanguages } from '../base/words'

/** A language by its own name; by its tag where the page has none of it. */
export function nameOf(tag: string): string {
  return toldOfLanguages().find(([code]) => code === tag)?.[1] ?? tag
}
