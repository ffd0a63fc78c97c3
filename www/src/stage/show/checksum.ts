/** The polynomial of CRC-32/ISO-HDLC (IEEE 802.3), with its lowest bit first. */
const POLYNOMIAL = 0xedb88320
const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ POLYNOMIAL : rest >>> 1
  return rest
})

/**
 * CRC-32/ISO-HDLC of a text as UTF-8, in eight hexadecimal digits. The browser's own
 * digests are not there on every page that is opened from disk.
 */
export function checksum(text: string): string {
  let rest = 0xffffffff
  for (const byte of new TextEncoder().encode(text)) rest = (rest >>> 8) ^ (TABLE[(rest ^ byte) & 0xff] ?? 0)
  return ((rest ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0')
}
