import { encode } from 'uqr'

/** So many bytes fit the largest code at the least correction (ISO/IEC 18004). */
export const MOST_BYTES = 2953

/** A code as the path of its dark squares, in squares; its quiet zone included. */
export interface QrPath {
  readonly path: string
  /** How many squares it is wide and high. */
  readonly size: number
}

/** The dark squares of a text as one path; nothing where the text is too long for a code. */
export function qrPath(text: string): QrPath | null {
  try {
    // The quiet zone of ISO/IEC 18004 is four squares wide.
    const { data, size } = encode(text, { ecc: 'L', border: 4 })
    const path = data.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ''))).join('')
    return { path, size }
  } catch {
    return null
  }
}
interface Properties {
  readonly code: QrPath
  readonly name: string
}

/** A code, black on white in every theme, as cameras want it. */
export function QrPicture({ code: { path, size }, name }: Properties) {
  return (
    <svg role="img" aria-label={name} viewBox={`0 0 ${size} ${size}`}>
      <rect width={size} height={size} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  )
}
