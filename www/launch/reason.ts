/** Why something failed, in the words of whoever refused. */
export function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
