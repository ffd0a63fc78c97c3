import { useState } from 'preact/hooks'
import type { GroundMap, MapIsolation } from '../../../generated/contract'
import { say } from '../../base/words'
import { Wide } from '../../base/wide'
import { edit } from '../show/project'
import { isolateAll } from './isolate'
import { nameOf } from './inputs'
import type { Choice } from './near'
import { NotCountedView } from './not-counted'
import { decibels } from './told'

interface Properties {
  readonly map: GroundMap
  readonly solving: boolean
  readonly onChoose: (choice: Choice) => void
  readonly tryHarder: () => void
}

/** What hums, and what cures it at the least cost; then, to compare, what opens every loop. */
export function IsolationView({ map, solving, onChoose, tryHarder }: Properties) {
  const { every_limit: limit, every_loop: loop, inputs } = map
  const over = inputs.filter(input => input.over).length
  const [told, setTold] = useState('')
  const act = (isolation: MapIsolation) => () => {
    let left = 0
    edit(say('stage-map-isolate'), show => {
      left = isolateAll(show, map, isolation.isolate).length
    })
    const done = isolation.isolate.length - left
    const key = left === 0 ? 'stage-map-done' : 'stage-map-done-but'
    setTold(say(key, { done: String(done), left: String(left) }))
  }
  const told_of = (isolation: MapIsolation) => ({ map, isolation, solving, onChoose, onAct: act(isolation) })
  return (
    <section class="map-answer" aria-busy={solving}>
      <p class="map-verdict" data-verdict={over === 0 ? 'fine' : 'over'}>
        <strong>{verdict(map, over)}</strong>
      </p>
      <NotCountedView map={map} />
      {limit.isolate.length > 0 && <Plan {...told_of(limit)} />}
      <NotEnough map={map} />
      <Rest isolation={limit} />
      {!limit.proved && (
        <p class="tools">
          <button type="button" class="chip" disabled={solving} onClick={tryHarder}>
            {say('stage-map-harder')}
          </button>
          <span class="hint">{say('stage-map-sets', { sets: String(limit.sets) })}</span>
        </p>
      )}
      <p role="status" class="map-told">
        {told}
      </p>
      <details>
        <summary>
          {say('stage-map-every-loop', { loops: String(map.loop_count), leads: String(loop.isolate.length) })}
        </summary>
        <p class="hint">{say('stage-map-every-loop-why')}</p>
        {loop.stay.length > 0 && <p>{say('stage-map-not-opened', { leads: names(map, loop.stay) })}</p>}
        {loop.isolate.length > 0 && <Plan {...told_of(loop)} />}
        <Rest isolation={loop} />
      </details>
    </section>
  )
}

function verdict({ inputs, every_limit: limit }: GroundMap, over: number): string {
  if (inputs.length === 0) return say('stage-map-nothing')
  if (over === 0) return say('stage-map-fine', { inputs: String(inputs.length) })
  const told = { over: String(over), leads: String(limit.isolate.length), left: String(limit.over.length) }
  if (limit.isolate.length === 0) return say('stage-map-incurable', told)
  return say(limit.over.length === 0 ? 'stage-map-curable' : 'stage-map-half', told)
}

interface PlanProperties {
  readonly map: GroundMap
  readonly isolation: MapIsolation
  readonly solving: boolean
  readonly onChoose: (choice: Choice) => void
  readonly onAct: () => void
}

/** What to isolate, and what each input comes to. */
function Plan({ map, isolation, solving, onChoose, onAct }: PlanProperties) {
  return (
    <div class="map-plan">
      <ol>
        {isolation.isolate.map(({ wire, what }) => (
          <li key={wire}>
            <button type="button" class="link" onClick={() => onChoose({ kind: 'wire', at: wire })}>
              {what}
            </button>
          </li>
        ))}
      </ol>
      <Louder map={map} isolation={isolation} />
      {isolation.short.map(text => (
        <p key={text} class="map-short">
          <span aria-hidden="true">! </span>
          {text}
        </p>
      ))}
      <p class="tools">
        <button type="button" class="chip map-do" disabled={solving} onClick={onAct}>
          {say('stage-map-do', { leads: String(isolation.isolate.length) })}
        </button>
        <span class="hint">{say(isolation.proved ? 'stage-map-proved' : 'stage-map-best')}</span>
      </p>
      <BeforeAfter map={map} isolation={isolation} />
    </div>
  )
}

function names({ wires }: GroundMap, places: readonly number[]): string {
  return [...new Set(places.flatMap(at => wires[at]?.name ?? []))].join(', ')
}

/** Inputs that hum more once it is done, by so much that it is heard. */
function Louder({ map, isolation }: { readonly map: GroundMap; readonly isolation: MapIsolation }) {
  const louder = isolation.distances.flatMap(([before, after], at) => {
    const input = map.inputs[at]
    const isLouder = before !== null && after !== null && before - after >= HEARD
    return input !== undefined && isLouder && isolation.over.includes(at) ? [{ input, before, after }] : []
  })
  return (
    <>
      {louder.map(({ input, before, after }) => (
        <p key={input.name} class="map-short">
          <span aria-hidden="true">! </span>
          {say('stage-map-louder', {
            input: input.name,
            before: decibels(before, input.limit),
            after: decibels(after, input.limit),
          })}
        </p>
      ))}
    </>
  )
}

/** Hum that rises by less is not heard to, dB. */
const HEARD = 1
/** An input whose hum moves by less is as it was, dB. */
const SAME = 0.5

function BeforeAfter({ map, isolation }: { readonly map: GroundMap; readonly isolation: MapIsolation }) {
  const moved = map.inputs.flatMap((input, at) => {
    const [before, after] = isolation.distances[at] ?? [null, null]
    const is_other = before === null || after === null ? before !== after : Math.abs(after - before) >= SAME
    return is_other || input.over ? [{ input, at, before, after }] : []
  })
  if (moved.length === 0) return null
  const name = say('stage-map-before-after', { inputs: String(moved.length) })
  return (
    <details>
      <summary>{name}</summary>
      <Wide name={name}>
        <table class="map-table">
          <thead>
            <tr>
              {['input', 'before', 'after', 'limit', 'holds'].map(column => (
                <th key={column} scope="col">
                  {say(`stage-map-${column}`)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {moved.map(({ input, at, before, after }) => (
              <tr key={at}>
                <th scope="row">{input.name}</th>
                <td>{decibels(before, input.limit)}</td>
                <td>{decibels(after, input.limit)}</td>
                <td>{input.limit === null ? '–' : decibels(input.limit)}</td>
                <td>{say(isolation.over.includes(at) ? 'stage-map-missed' : 'stage-map-kept')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </details>
  )
}

/** Which inputs the cheapest isolation leaves over their limits, and what is enough for them. */
function NotEnough({ map: { inputs, every_limit: limit } }: { readonly map: GroundMap }) {
  if (limit.over.length === 0) return null
  const names = limit.over.flatMap(at => inputs[at] ?? []).map(nameOf)
  const key = limit.cures.length === 0 ? 'stage-map-not-enough' : 'stage-map-what-is'
  return (
    <div class="map-beyond">
      <h3>{say(key, { inputs: names.join(', ') })}</h3>
      <Texts texts={limit.cures} />
    </div>
  )
}

/** What else helps against what isolation leaves. */
function Rest({ isolation: { beyond } }: { readonly isolation: MapIsolation }) {
  if (beyond.length === 0) return null
  return (
    <div class="map-beyond">
      <h3>{say('stage-map-beyond')}</h3>
      <Texts texts={beyond} />
    </div>
  )
}

function Texts({ texts }: { readonly texts: readonly string[] }) {
  if (texts.length === 0) return null
  return (
    <ul>
      {texts.map(text => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  )
}
