import type { LessonStep, LessonVariant } from '../../generated/contract'
import type { LessonState } from './lesson-state'

type Text = (variant: LessonVariant) => string | undefined

/** The language of a text of a step, or of the lesson, that is not told in that of the others: its file has none of it there. */
export function toldIn(
  { lesson, own }: Pick<LessonState, 'lesson' | 'own'>,
  { variants }: Pick<LessonStep, 'variants'>,
  text: Text,
): string | undefined {
  const variant = variants[lesson.language]
  return lesson.language === own || (variant !== undefined && text(variant)) ? undefined : own || undefined
}

/** The same of a title; one that is empty is told in the reader's language. */
export function titledIn(
  state: Pick<LessonState, 'lesson' | 'own'>,
  { title, variants }: Pick<LessonStep, 'title' | 'variants'>,
): string | undefined {
  return title === '' ? undefined : toldIn(state, { variants }, variant => variant.title)
}

/** The same of the name of a way, a case or a part, which stand in this order. */
export function namedIn(
  state: Pick<LessonState, 'lesson' | 'own'>,
  step: LessonStep,
  list: 'ways' | 'cases' | 'drawer',
  at: number,
): string | undefined {
  const before = { ways: 0, cases: step.ways.length, drawer: step.ways.length + step.cases.length }[list]
  return toldIn(state, step, ({ names }) => names[before + at])
}
