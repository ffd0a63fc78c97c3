/** A number, a space, and the symbol of a unit behind it. */
const APART =
  /(\d)[ \u202f](?=(?:dB(?:u|V|m|FS)?|[fpnµmkMG]?(?:Ω|Hz|V|A|F|H|W|S|T|s)|[mck]?m|ft|[kM]?ohm|%|°C?|K)(?![\p{L}\d]))/gu

/** The same with what breaks no number from its unit at the end of a line. */
export function bound(text: string): string {
  return text.replace(APART, '$1\u00a0')
}
