import type { Lesson } from '../../generated/contract'
import { visible } from '../base/visible'
import { say } from '../base/words'

/** What a lesson is called, wherever it is told. */
export function titleOf({ title }: Pick<Lesson, 'title'>): string {
  return visible(title) || say('lesson-untitled')
}

/** What a step is called; by its place where its title shows nothing. */
export function stepTitle(step: { readonly title: string } | undefined, at: number): string {
  return visible(step?.title ?? '') || say('lesson-collect-step', { step: `${at + 1}` })
}
