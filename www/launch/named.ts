// How things are called by standards that are particular about it.

/** The name of a lesson, or of a part of it, that no other has (an IRI). */
export function iri(kind: 'course' | 'lesson', id: string): string {
  return `urn:stageohm:${kind}:lesson-${encodeURIComponent(id.replace(/\p{Surrogate}/gu, '\ufffd'))}`
}

/** A language as RFC 5646 has it; one that is none is not known. */
export function languageTag(language: string): string {
  return /^[a-z]{2,8}(-[a-z\d]{1,8})*$/i.test(language) ? language : 'und'
}

/** A number without exponent, as all of them read it. */
export function decimal(number: number): string {
  const [mantissa = '', exponent] = number.toExponential().split('e')
  const digits = mantissa.replace(/[-.]/g, '')
  const point = 1 + Number(exponent)
  const padded = digits.padStart(digits.length + Math.max(0, 1 - point), '0').padEnd(point, '0')
  const [whole, part] = [padded.slice(0, Math.max(1, point)), padded.slice(Math.max(1, point))]
  return `${number < 0 ? '-' : ''}${whole}${part === '' ? '' : `.${part}`}`
}
