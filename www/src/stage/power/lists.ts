// The lists of power and links, and what is asked of their rows.

import type { Circuit, Equipment, Show, StageLink } from '../../../generated/contract'
import { say } from '../../base/words'
import type { Options } from '../show/inputs'

export type ListName = 'power' | 'equipment' | 'links'
export type PowerRow = Circuit | Equipment | StageLink

export interface Column {
  readonly key: string
  readonly label: string
  /** The field of the whole line that reads such a quantity, where it is one. */
  readonly quantity?: string
  /** What there is to choose from, where it is a choice. */
  readonly options?: (show: Show) => Options
  readonly hint?: string
}

export function columnsOf(list: ListName): readonly Column[] {
  return [{ key: 'name', label: say('stage-row-name') }, ...own(list), { key: 'note', label: say('stage-note') }]
}

function own(list: ListName): readonly Column[] {
  const unknown = say('stage-unknown')
  if (list === 'power') {
    return [
      {
        key: 'difference',
        label: say('stage-circuit-difference'),
        quantity: 'difference',
        hint: say('stage-circuit-reference'),
      },
      { key: 'earth_r', label: say('stage-circuit-earth-r'), quantity: 'earth_r', hint: unknown },
    ]
  }
  if (list === 'equipment') {
    return [
      { key: 'power', label: say('stage-powered'), options: () => named('power', ['earthed', 'insulated', 'battery']) },
      {
        key: 'circuit',
        label: say('stage-circuit'),
        options: ({ power }) => [['', say('stage-none')], ...byName(power)],
      },
      { key: 'leakage', label: say('stage-leakage'), quantity: 'leakage_current', hint: unknown },
      { key: 'pin_1', label: say('stage-pin-1'), quantity: 'pin_1_r', hint: say('stage-pin-1-none') },
      { key: 'phantom_most', label: say('stage-phantom-most'), quantity: 'current', hint: unknown },
    ]
  }
  const equipment = ({ equipment }: Show): Options => [['', say('stage-choose')], ...byName(equipment)]
  return [
    {
      key: 'kind',
      label: say('stage-kind'),
      options: () => named('link', ['audio', 'network', 'usb', 'video', 'metalwork']),
    },
    { key: 'from', label: say('stage-link-from'), options: equipment },
    { key: 'to', label: say('stage-link-to'), options: equipment },
    {
      key: 'ends',
      label: say('stage-link-ends'),
      options: () => named('ends', ['both', 'one', 'none', 'transformer', 'optical', 'radio']),
    },
    { key: 'r', label: say('stage-link-r'), quantity: 'earth_r', hint: unknown },
  ]
}

function named(what: string, ids: readonly string[]): Options {
  return ids.map(id => [id, say(`stage-${what}-${id}`)])
}

function byName(rows: readonly { readonly id: string; readonly name: string }[]): Options {
  return rows.map(({ id, name }) => [id, name === '' ? id : name])
}

/** A row as it begins. */
export function blankRow(list: ListName, id: string, name: string): PowerRow {
  if (list === 'power') return { id, name, difference: '', earth_r: '', note: '' }
  if (list === 'equipment') {
    return { id, name, power: 'earthed', circuit: '', leakage: '', pin_1: '', phantom_most: '', note: '' }
  }
  return { id, name, kind: 'audio', from: '', to: '', ends: 'both', r: '', note: '' }
}

/** What in a show points to a row, each as one would call it. */
export function usersOf({ equipment, links, lines }: Show, list: ListName, id: string): string[] {
  if (list === 'links') return []
  const isUsed = (keys: readonly string[]) => (row: object) =>
    keys.some(key => (row as Readonly<Record<string, unknown>>)[key] === id)
  const ofLines = list === 'power' ? ['circuit'] : ['equipment', 'thru', 'stage_box', 'destination', 'second']
  return [
    ...(list === 'power' ? equipment.filter(isUsed(['circuit'])) : links.filter(isUsed(['from', 'to']))).map(
      ({ id, name }) => name || id,
    ),
    ...lines
      .filter(isUsed(ofLines))
      .map(({ id, channel, name }) => [channel, name].filter(text => text !== '').join(' ') || id),
  ]
}
