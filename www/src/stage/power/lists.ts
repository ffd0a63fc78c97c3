// The lists of power and links, and what is asked of their rows.

import type { Circuit, Equipment, Show, StageLink } from '../../../generated/contract'
import { say } from '../../base/words'
import type { Options } from '../show/inputs'
import type { Bare } from '../show/quantity-input'
import type { Texts } from '../show/values'

export type ListName = 'power' | 'equipment' | 'links'
export type PowerRow = Circuit | Equipment | StageLink

export interface Column {
  readonly key: string
  readonly label: string
  /** What it is read as, where it is a quantity. */
  readonly quantity?: Quantity
  /** What there is to choose from, where it is a choice. */
  readonly options?: (show: Show) => Options
  readonly hint?: string
}

export interface Quantity {
  /** The field of the whole line that reads such a quantity. */
  readonly field: string
  readonly bare: Bare
}

const OHMS: Bare = { unit: 'Ω', sane: Infinity }

export function columnsOf(list: ListName): readonly Column[] {
  const own = { power: ofCircuits, equipment: ofEquipment, links: ofLinks }[list](say('stage-unknown'))
  return [{ key: 'name', label: say('stage-row-name') }, ...own, { key: 'note', label: say('stage-note') }]
}

function ofCircuits(unknown: string): readonly Column[] {
  return [
    {
      key: 'difference',
      label: say('stage-circuit-difference'),
      // More lies between two earths only where something is broken.
      quantity: { field: 'difference', bare: { unit: 'V', sane: 10 } },
      hint: say('stage-for-example', { text: '300 mV' }),
    },
    {
      key: 'earth_r',
      label: say('stage-circuit-earth-r'),
      quantity: { field: 'earth_r', bare: OHMS },
      hint: unknown,
    },
  ]
}

function ofEquipment(unknown: string): readonly Column[] {
  return [
    { key: 'power', label: say('stage-powered'), options: named('power', ['earthed', 'insulated', 'battery']) },
    {
      key: 'circuit',
      label: say('stage-circuit'),
      options: ({ power }) => byName(power, say('stage-none')),
    },
    {
      key: 'leakage',
      label: say('stage-leakage'),
      // More trips the breaker.
      quantity: { field: 'leakage_current', bare: { unit: 'A', sane: 0.01 } },
      hint: unknown,
    },
    {
      key: 'pin_1',
      label: say('stage-pin-1'),
      quantity: { field: 'pin_1_r', bare: OHMS },
      hint: say('stage-pin-1-none'),
    },
    {
      key: 'phantom_most',
      label: say('stage-phantom-most'),
      // A hundred inputs take less.
      quantity: { field: 'current', bare: { unit: 'A', sane: 1 } },
      hint: unknown,
    },
  ]
}

function ofLinks(unknown: string): readonly Column[] {
  const equipment = ({ equipment }: Show): Options => byName(equipment, say('stage-choose'))
  return [
    {
      key: 'kind',
      label: say('stage-kind'),
      options: named('link', ['audio', 'network', 'usb', 'video', 'metalwork']),
    },
    { key: 'from', label: say('stage-link-from'), options: equipment },
    { key: 'to', label: say('stage-link-to'), options: equipment },
    {
      key: 'ends',
      label: say('stage-link-ends'),
      options: named('ends', ['both', 'one', 'none', 'transformer', 'optical', 'radio']),
    },
    { key: 'r', label: say('stage-link-r'), quantity: { field: 'earth_r', bare: OHMS }, hint: unknown },
  ]
}

function named(what: string, ids: readonly string[]): (show: Show) => Options {
  const options = ids.map(id => [id, say(`stage-${what}-${id}`)] as const)
  return () => options
}

type Named = readonly { readonly id: string; readonly name: string }[]

const menus = new WeakMap<Named, Options>()

/** Rows to choose from, or none; the same as long as the rows are, which may be many. */
function byName(rows: Named, none: string): Options {
  const known = menus.get(rows)
  if (known !== undefined && known[0]?.[1] === none) return known
  const menu: Options = [['', none], ...rows.map(({ id, name }) => [id, name === '' ? id : name] as const)]
  menus.set(rows, menu)
  return menu
}

/** What makes the whole line ask for the quantities of a list. */
export const ASKED_BY: Readonly<Record<ListName, Texts>> = {
  power: { source: 'output', power: 'earthed' },
  equipment: { source: 'output', power: 'leaking' },
  links: { source: 'output', power: 'earthed' },
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
