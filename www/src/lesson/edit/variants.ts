// The texts of a lesson in other languages, while those in its own are changed: what is
// said in another language of something that is another now is left out, so that nobody
// is taught what no longer holds.

import type { LessonVariant } from '../../../generated/contract'
import { isRecord } from '../../base/shape'
import type { DraftLesson, DraftStep } from '../../screen/lesson-drafts'

type Variants = Readonly<Record<string, Partial<LessonVariant>>>

const TEXTS = ['title', 'text', 'because', 'note'] as const
/** What texts speak of: where one of these is another, so is what they would have to say. */
const SPOKEN_OF = [
  ...(['kind', 'rig', 'values', 'reading', 'plot', 'trace', 'good', 'none', 'from', 'to'] as const),
  ...(['limits', 'budget', 'best', 'source', 'as_it_is'] as const),
]

/** The languages of a lesson beside its own. */
export function othersOf({ variants = {} }: DraftLesson): string[] {
  return Object.keys(variants)
}

/** A step that was changed, with what of its texts in other languages still holds. */
export function stepAfter(before: DraftStep, after: DraftStep): DraftStep {
  if (before.variants === undefined) return after
  const isOther = SPOKEN_OF.some(key => !same(before[key], after[key])) || !same(rigsOf(before), rigsOf(after))
  const still = Object.entries(isOther ? {} : kept(before.variants, before, after))
  return withVariants(after, Object.fromEntries(still.filter(([, variant]) => says(variant))))
}

/** The same of a lesson, whose rig is that of its steps. */
export function lessonAfter(before: DraftLesson, after: DraftLesson): DraftLesson {
  const { variants, language = '' } = after
  if (variants === undefined) return after
  const isDealt = !same(before.draw, after.draw)
  const isOther = (step: DraftStep) => isDealt || (!step.rig && !same(before.rig, after.rig))
  const steps = after.steps.map(step => (step.variants && isOther(step) ? withVariants(step, {}) : step))
  const next = withVariants({ ...after, steps }, kept(variants, before, after))
  // What is written from now on is in the language that a variant was in.
  return language === before.language
    ? next
    : Object.keys(variants)
        .filter(tag => sameLanguage(tag, language))
        .reduce(leaveOut, next)
}

/** A lesson without its texts in a language. */
export function leaveOut(lesson: DraftLesson, tag: string): DraftLesson {
  const leave = <T extends Told>(one: T): T => {
    const { [tag]: left, ...others } = one.variants ?? {}
    return left === undefined ? one : withVariants(one, others)
  }
  return leave({ ...lesson, steps: lesson.steps.map(leave) })
}

/** A lesson without the languages that nothing of it is told in any more. */
export function withoutSilent(lesson: DraftLesson): DraftLesson {
  const isTold = (tag: string) => [lesson, ...lesson.steps].some(one => says((one.variants ?? {})[tag]))
  return othersOf(lesson)
    .filter(tag => !isTold(tag))
    .reduce(leaveOut, lesson)
}

/** How many texts of a lesson are not in a language that it is told in. */
export function untold(lesson: DraftLesson, tag: string): number {
  const of = (one: DraftLesson | DraftStep) => {
    const variant: Partial<LessonVariant> = (one.variants ?? {})[tag] ?? {}
    const pairs = [
      ...TEXTS.map(key => [textOf(one, key), variant[key]]),
      ...hintsOf(one).map((hint, at) => [hint, variant.hints?.[at]]),
      ...namesOf(one).map((name, at) => [name, variant.names?.[at]]),
    ]
    return pairs.filter(([own = '', told = '']) => own !== '' && told === '').length
  }
  return [lesson, ...lesson.steps].reduce((sum, one) => sum + of(one), 0)
}

type Told = DraftLesson | DraftStep

function withVariants<T extends Told>(one: T, variants: Record<string, LessonVariant>): T {
  const { variants: _, ...others } = one
  return (Object.keys(variants).length === 0 ? others : { ...others, variants }) as T
}

function kept(variants: Variants, before: Told, after: Told): Record<string, LessonVariant> {
  const still = Object.entries(variants).map(([tag, variant]) => {
    const texts = TEXTS.map(key => [key, textOf(before, key) === textOf(after, key) ? (variant[key] ?? '') : ''])
    const hints = following(variant.hints ?? [], hintsOf(before), hintsOf(after))
    const names = following(variant.names ?? [], namesOf(before), namesOf(after))
    return [tag, { ...Object.fromEntries(texts), hints, names }]
  })
  return Object.fromEntries(still) as Record<string, LessonVariant>
}

/** Texts of a list in another language, once one of its own texts was changed or taken out. */
function following(told: readonly string[], before: readonly string[], after: readonly string[]): string[] {
  if (after.length < before.length) {
    const gone = before.findIndex((text, at) => text !== after[at])
    return told.filter((_, at) => at !== gone)
  }
  return told.map((text, at) => (before[at] === after[at] ? text : ''))
}

function textOf(one: Told, key: (typeof TEXTS)[number]): string {
  return ('steps' in one && (key === 'text' || key === 'because') ? '' : (one as DraftStep)[key]) ?? ''
}

function hintsOf(one: Told): readonly string[] {
  return 'steps' in one ? [] : (one.hints ?? [])
}

/** Names of ways, cases and parts, in the order in which variants have them. */
function namesOf(one: Told): string[] {
  if ('steps' in one) return []
  return [...(one.ways ?? []), ...(one.cases ?? []), ...(one.drawer ?? [])].map(({ name }) => name ?? '')
}

/** What ways, cases and parts do, whatever they are called. */
function rigsOf({ ways = [], cases = [], drawer = [] }: DraftStep) {
  return [ways, cases, drawer].map(list => list.map(one => ({ ...one, name: '' })))
}

function says(variant: Partial<LessonVariant> | undefined): boolean {
  return Object.values(variant ?? {}).some(text => [text].flat().some(text => text !== ''))
}

function sameLanguage(tag: string, other: string): boolean {
  return tag.split('-')[0] === other.split('-')[0]
}

/** Whether two values say the same, in whatever order. */
function same(one: unknown, other: unknown): boolean {
  return sorted(one) === sorted(other)
}

function sorted(value: unknown): string {
  const entries = (_: string, part: unknown) => (isRecord(part) ? Object.entries(part).sort() : part)
  return JSON.stringify(value ?? null, entries)
}
