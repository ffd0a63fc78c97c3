export type Way = 'undo' | 'redo'

/** What a key is for, wherever it is pressed. */
export function wayOfKey({ key, ctrlKey, metaKey, altKey, shiftKey }: KeyboardEvent): Way | null {
  if (altKey || !(ctrlKey || metaKey)) return null
  if (key.toLowerCase() === 'z') return shiftKey ? 'redo' : 'undo'
  return key.toLowerCase() === 'y' && !shiftKey ? 'redo' : null
}
