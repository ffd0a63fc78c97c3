// What is kept of a search: in sentences, for text and paper alike.

import type { Found } from '../../generated/contract'
import { today } from '../base/download'
import { percent } from '../base/percent'
import { say } from '../base/words'
import { lineOf, summaryOf } from './line'
import { causeName, cautionOf, cureOf, deedOf, figureText, outcomeName } from './said'
import type { Told } from './use-answer'

/** So many causes are told. */
const TOLD = 5

export interface Report {
  readonly title: string
  /** What is heard, and on which line. */
  readonly head: readonly string[]
  readonly done: readonly string[]
  readonly odds: readonly string[]
  /** What was found, the cure and its numbers. */
  readonly found: readonly string[]
  readonly foot: readonly string[]
}

export function reportOf({ search, sound, answer }: Told, link: string): Report {
  const { symptom, scope, texts, settings, done } = search
  const line = lineOf(texts, settings)
  const { found, odds, source } = answer
  return {
    title: `${say('seek')}, ${today()}`,
    head: [
      say('fault-report-heard', { symptom: say(`fault-symptom-${symptom}`), scope: say(`fault-scope-${scope}`) }),
      say('fault-report-line', { line: line === null ? '' : summaryOf(line) }),
    ],
    done: done.map(one => `${deedOf(one, source)[0]} ${outcomeName(one.step, one.outcome)}`),
    odds: odds.slice(0, TOLD).map(({ cause, share }) => `${causeName(cause)}: ${percent(share)}`),
    found: found === null ? [] : foundTexts(found),
    foot: [
      ...(sound === null ? [] : [say('fault-report-sound')]),
      say('fault-report-judged'),
      ...(link === '' ? [] : [link]),
    ],
  }
}

function foundTexts({ cause, share, by, figures }: Found): string[] {
  return [
    say('fault-report-found', { cause: causeName(cause), share: percent(share) }),
    cureOf(cause, by),
    ...figures.map(figureText),
    cautionOf(`cure-${cause}`) ?? say('fault-safety'),
  ]
}

/** The report as a text to keep or to send. */
export function textOf({ title, head, done, odds, found, foot }: Report): string {
  const numbered = done.map((text, place) => `${place + 1}. ${text}`)
  const part = (heading: string, lines: readonly string[]) => (lines.length === 0 ? [] : ['', say(heading), ...lines])
  const lines = [
    title,
    ...head,
    ...part('fault-report-result', found),
    ...part('fault-answers', numbered),
    ...part('fault-odds', odds),
    '',
    ...foot,
  ]
  return `${lines.join('\n').replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ')}\n`
}
