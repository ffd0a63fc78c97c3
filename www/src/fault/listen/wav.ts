/** Samples in a file of 24 bits and one channel. */
export function wavOf(samples: Float32Array, rate: number): ArrayBuffer {
  const head = 44
  const size = samples.length * 3
  // Chunks have even lengths.
  const view = new DataView(new ArrayBuffer(head + size + (size % 2)))
  const letters = (at: number, text: string) =>
    [...text].forEach((letter, place) => view.setUint8(at + place, letter.charCodeAt(0)))
  letters(0, 'RIFF')
  view.setUint32(4, view.byteLength - 8, true)
  letters(8, 'WAVEfmt ')
  view.setUint32(16, 16, true)
  view.setUint16(20, 1, true)
  view.setUint16(22, 1, true)
  view.setUint32(24, rate, true)
  view.setUint32(28, rate * 3, true)
  view.setUint16(32, 3, true)
  view.setUint16(34, 24, true)
  letters(36, 'data')
  view.setUint32(40, size, true)
  samples.forEach((sample, place) => {
    const value = Math.max(-0x80_0000, Math.min(0x7f_ffff, Math.round(sample * 0x80_0000)))
    view.setUint16(head + 3 * place, value & 0xffff, true)
    view.setInt8(head + 3 * place + 2, value >> 16)
  })
  return view.buffer
}
