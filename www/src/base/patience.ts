/** When a start that hangs is told, in milliseconds; the styles say the same. */
export const PATIENCE = 10_000
