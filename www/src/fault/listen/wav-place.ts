// Where in a WAV file its samples lie, so that of an hour of them only the part that is
// listened to is read. What they are, the core reads.

/** Descriptions before the samples are no longer than this. */
const HEAD = 2 ** 18
/** A size that stands elsewhere, or was never filled in. */
const UNSAID = [0, 0xffff_ffff]

export interface WavPlace {
  /** Where the samples begin. */
  readonly from: number
  readonly to: number
  /** Bytes of a sample of all channels, and of a second. */
  readonly frame: number
  readonly second: number
  /** Whether the file ends before what it says of itself. */
  readonly cut: boolean
}

export async function isWav(file: Blob): Promise<boolean> {
  return isHead(await headOf(file, 12))
}

/** Nothing where it is told another way than most files do. */
export async function wavPlace(file: Blob): Promise<WavPlace | null> {
  const head = await headOf(file, HEAD)
  let [frame, second] = [0, 0]
  for (let at = 12; at + 8 <= head.byteLength;) {
    const [id, size] = [word(head, at), head.getUint32(at + 4, true)]
    const from = at + 8
    if (id === 'fmt ' && from + 16 <= head.byteLength) {
      frame = head.getUint16(from + 12, true)
      second = head.getUint32(from + 4, true) * frame
    }
    if (id === 'data') {
      const told = UNSAID.includes(size) ? file.size : from + size
      return second === 0 ? null : { from, to: Math.min(told, file.size), frame, second, cut: told > file.size }
    }
    at = from + size + (size % 2)
  }
  return null
}

/** A file with the same description and so many seconds of the samples. */
export function wavPart(file: Blob, { from, to, frame, second }: WavPlace, begin: number, seconds: number): Blob {
  const first = Math.min(from + Math.floor((begin * second) / frame) * frame, to)
  return new Blob([file.slice(0, from), file.slice(first, Math.min(first + Math.ceil(seconds * second), to))])
}

async function headOf(file: Blob, size: number): Promise<DataView> {
  return new DataView(await file.slice(0, size).arrayBuffer())
}

function isHead(head: DataView): boolean {
  return head.byteLength >= 12 && ['RIFF', 'RF64'].includes(word(head, 0)) && word(head, 8) === 'WAVE'
}

function word(view: DataView, at: number): string {
  return String.fromCharCode(...[0, 1, 2, 3].map(place => view.getUint8(at + place)))
}
