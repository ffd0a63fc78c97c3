/** The files of a version by their names. */
export type Files = ReadonlyMap<string, Buffer>
export type State = 'old' | 'missing' | 'cut'
export const STATES: readonly State[]
export function builtFiles(): Files
export function renewedFiles(folder: string, mark?: string, other?: { main?: string | undefined }): Files
export function keptNames(files: Files): string[]
export function nameIn(files: Files, name: string): string
export function uploaded(before: Files, after: Files, states: Readonly<Record<string, State>>): Files
export function mishaps(names: readonly string[]): Generator<Record<string, State>>
