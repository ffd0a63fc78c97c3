// The kinds of steps that are written here, and what each of them asks of its author.

export const KINDS = ['read', 'number', 'magnitude', 'curve', 'choice', 'target', 'fault', 'ear'] as const

interface Needs {
  readonly reading: boolean
  readonly plot: boolean
  readonly credit: boolean
  /** Whether feedback tells what a field would have to be for the answer that was given. */
  readonly back: boolean
}

const NEEDS: Readonly<Record<string, Needs>> = {
  read: { reading: true, plot: true, credit: false, back: false },
  number: { reading: true, plot: false, credit: true, back: true },
  magnitude: { reading: true, plot: false, credit: false, back: false },
  curve: { reading: false, plot: true, credit: true, back: true },
  choice: { reading: false, plot: false, credit: false, back: false },
  target: { reading: false, plot: false, credit: false, back: false },
  ear: { reading: false, plot: false, credit: false, back: false },
  fault: { reading: false, plot: true, credit: false, back: false },
}

export function needsOf(kind: string): Needs {
  return NEEDS[kind] ?? { reading: false, plot: false, credit: false, back: false }
}

export function isAsking(kind: string): boolean {
  return kind !== 'read'
}
