// Results as statements (xAPI 1.0.3), for a record store: each answer, then what came of
// the lesson. When something was answered stands in no result, so no time is told.

import { v5 } from 'uuid'
import { iri, languageTag } from '../../../launch/named'
import { answered, COMPLETED, judged, statement, type Said, type Statement } from '../../../launch/statement'
import { answerOf } from '../attempt'
import { NO_RESPONSE } from '../lesson-state'
import { scoreOf } from '../points'
import type { Collected, Row } from './mark-again'

/** Nicknames are of no learning system: nobody has an account there. */
const HOME = 'https://stageohm.invalid/'
/** What names are unique within, as version 5 asks for it: ours. */
const NAMES = '7c0d5c1e-2f0b-4c3a-9a55-3f6d1b8e4a21'
const SEED = 'urn:stageohm:extension:seed'
const LESSON = 'http://adlnet.gov/expapi/activities/lesson'

/** All results that could be marked; the same result is told once. */
export function statementsOf({ rows }: Pick<Collected, 'rows'>): Statement[] {
  const all = rows.flatMap(ofRow).map(one => [one.id, one] as const)
  return [...new Map(all).values()]
}

function ofRow({ lesson, dealt, result, marked, points, of }: Row): Statement[] {
  if (lesson === null) return []
  const { id, revision, seed, name, responses } = result
  const activity = iri('lesson', id)
  const language = languageTag(lesson.language)
  const answers = lesson.steps.flatMap((step, at) => {
    const one = marked[at] ?? null
    if (one === null) return []
    const ways = dealt?.steps[at]?.ways ?? []
    return [answerOf({ at, step, ways, response: responses[at] ?? NO_RESPONSE, marked: one })]
  })
  const score = scoreOf({ lesson, marked })
  const said: readonly Said[] = [
    ...answers.map(answer => answered(activity, answer, language)),
    ...(of > 0 && lesson.pass > 0 ? [judged(points / of, lesson.pass)] : []),
    ...(score.answered === score.asked ? [COMPLETED] : []),
  ]
  const hints = responses.map(response => [response?.sure ?? null, response?.hints ?? 0])
  const whose = [id, revision, seed, name, answers.map(({ step, response }) => [step, response]), hints]
  const actor = {
    objectType: 'Agent',
    ...(name === '' ? {} : { name }),
    account: { homePage: HOME, name: name === '' ? `seed-${seed}` : name },
  }
  const definition = { type: LESSON, name: { [language]: lesson.title } }
  return said.map(one =>
    statement(one, {
      id: v5(JSON.stringify([whose, one.verb, one.object?.id ?? '']), NAMES),
      actor,
      lesson: { objectType: 'Activity', id: activity, definition },
      context: {
        revision: `${revision}`,
        ...(one.object === undefined ? {} : { contextActivities: { parent: [{ id: activity }] } }),
        extensions: { [SEED]: seed },
      },
    }),
  )
}
