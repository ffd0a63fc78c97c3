import type { InputLine, Show } from '../../../generated/contract'

interface Named {
  readonly id: string
  readonly name: string
}

/** What a thing is called; what names nothing stands as it is. */
function nameIn(things: readonly Named[], id: string): string {
  return things.find(thing => thing.id === id)?.name || id
}

export function gearName({ gear }: Show, id: string): string {
  return nameIn(gear, id)
}

export function equipmentName({ equipment }: Show, id: string): string {
  return nameIn(equipment, id)
}

/** How a line is spoken of: its channel and its name. */
export function lineName({ channel, name, id }: InputLine): string {
  return [channel, name].filter(text => text !== '').join(' · ') || id
}

export function lineById({ lines }: Show, id: string): string {
  const line = lines.find(line => line.id === id)
  return line === undefined ? id : lineName(line)
}
