// What gear could put into the fields of a calculator.

import type { Description, FieldDescription, Gear, GearKind } from '../../../generated/contract'
import type { Texts } from '../show/values'
import { valuesOf } from './kinds'

type Renamed = readonly (readonly [of: string, as: string])[]

/** Fields that gear could fill too, under other names. */
const ALSO: Partial<Readonly<Record<GearKind, Renamed>>> = {
  source: [
    ['microphone_r', 'source_r'],
    ['microphone_emf', 'emf'],
  ],
  lead: [
    ['lead_length', 'run_length'],
    ['lead_c', 'run_c'],
    ['lead_r', 'run_r'],
    ['lead_l', 'run_l'],
  ],
  di: [
    ['box_r', 'load_r'],
    ['box_c', 'load_c'],
  ],
  input: [
    ['console_r', 'load_r'],
    ['console_c', 'load_c'],
  ],
}

/** Fields that mean something else than in the whole line, where gear has its values from. */
const OTHERS: Readonly<Record<string, readonly string[]>> = { pad: ['input_r'], balance: ['imbalance'] }

/** All that a piece of gear puts into a calculator where it fills this field; nothing where it does not. */
export function textsFor(gear: Gear, { id, fields }: Description, field: string, line: Description): Texts | null {
  const values = valuesOf(gear)
  const fits = (of: string, as: string) => {
    const text = values[of]
    const [asked, meant] = [fields.find(({ id }) => id === as), line.fields.find(({ id }) => id === of)]
    return text !== undefined && asked !== undefined && meant !== undefined && isAlike(asked, meant, text)
  }
  const own = Object.keys(values)
    .filter(of => fits(of, of) && !(OTHERS[id] ?? []).includes(of))
    .map(of => [of, of] as const)
  const also = (ALSO[gear.kind] ?? []).filter(([of, as]) => fits(of, as))
  // A lead is the first one or the run, not both.
  const pairs = [own, also].find(pairs => pairs.some(([, as]) => as === field))
  return pairs === undefined ? null : Object.fromEntries(pairs.map(([of, as]) => [as, values[of] ?? '']))
}

function isAlike(asked: FieldDescription, meant: FieldDescription, text: string): boolean {
  if (asked.choice !== null) return asked.choice.options.some(({ id }) => id === text)
  return asked.number !== null && asked.number.unit === meant.number?.unit
}
