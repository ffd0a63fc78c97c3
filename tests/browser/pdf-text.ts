// The text of a PDF as Chromium writes it: glyphs in a stream, and in each font what they mean.

import {
  decodePDFRawStream,
  PDFArray,
  PDFDict,
  PDFDocument,
  PDFName,
  PDFRawStream,
  type PDFContext,
  type PDFObject,
  type PDFPage,
} from 'pdf-lib'

/** What stands on each page, without its spaces. */
export async function textOfPages(pdf: Uint8Array): Promise<string[]> {
  const document = await PDFDocument.load(pdf)
  return document.getPages().map(textOf)
}

/** A text as the pages have it. */
export function squeezed(text: string): string {
  return text.replaceAll(/[\s\u00ad]/g, '')
}

function textOf({ node, doc: { context } }: PDFPage): string {
  const contents = node.Contents()
  const streams = contents instanceof PDFArray ? contents.asArray().map(one => context.lookup(one)) : [contents]
  const resources = node.Resources()
  return resources === undefined ? '' : streams.map(stream => textIn(stream, resources, context)).join('')
}

/** The text of a stream, and of the forms that it draws. */
function textIn(stream: PDFObject | undefined, resources: PDFDict, context: PDFContext): string {
  if (!(stream instanceof PDFRawStream)) return ''
  const fonts = new Map<string, ReadonlyMap<string, string>>()
  let font: ReadonlyMap<string, string> = new Map()
  let text = ''
  for (const [token] of latin(stream).matchAll(/\/\S+\s+[\d.]+\s+Tf\b|\/\S+\s+Do\b|<[\da-fA-F]*>(?!>)/g)) {
    const [name = ''] = /^\/[^\s]+/.exec(token) ?? []
    if (token.endsWith('Tf')) {
      const known = fonts.get(name) ?? meaningsOf(entry(resources, 'Font', name, context), context)
      fonts.set(name, known)
      font = known
    } else if (token.endsWith('Do')) {
      const form = entry(resources, 'XObject', name, context)
      if (!(form instanceof PDFRawStream)) continue
      const own = form.dict.lookup(PDFName.of('Resources'))
      text += textIn(form, own instanceof PDFDict ? own : resources, context)
    } else {
      text += (token.match(/[\da-fA-F]{4}/g) ?? []).map(glyph => font.get(glyph.toUpperCase()) ?? '').join('')
    }
  }
  return squeezed(text)
}

function entry(resources: PDFDict, kind: string, name: string, context: PDFContext): PDFObject | undefined {
  const all = resources.lookup(PDFName.of(kind))
  return all instanceof PDFDict ? context.lookup(all.get(PDFName.of(name.slice(1)))) : undefined
}

/** What the glyphs of a font mean. */
function meaningsOf(font: PDFObject | undefined, context: PDFContext): ReadonlyMap<string, string> {
  const meanings = new Map<string, string>()
  const map = font instanceof PDFDict ? context.lookup(font.get(PDFName.of('ToUnicode'))) : undefined
  if (!(map instanceof PDFRawStream)) return meanings
  const letters = (hex: string) =>
    (hex.match(/.{4}/g) ?? []).map(unit => String.fromCharCode(parseInt(unit, 16))).join('')
  const code = (number: number) => number.toString(16).toUpperCase().padStart(4, '0')
  const text = latin(map)
  for (const [, block = ''] of text.matchAll(/beginbfchar([\s\S]*?)endbfchar/g)) {
    for (const [, glyph = '', meaning = ''] of block.matchAll(/<(\w+)>\s*<(\w+)>/g)) {
      meanings.set(glyph.toUpperCase(), letters(meaning))
    }
  }
  for (const [, block = ''] of text.matchAll(/beginbfrange([\s\S]*?)endbfrange/g)) {
    for (const [, from = '', to = '', first = ''] of block.matchAll(/<(\w+)>\s*<(\w+)>\s*<(\w+)>/g)) {
      const [start, end] = [parseInt(from, 16), parseInt(to, 16)]
      for (let at = start; at <= end; at++) {
        meanings.set(
          code(at),
          letters(first.slice(0, -4)) + String.fromCharCode(parseInt(first.slice(-4), 16) + at - start),
        )
      }
    }
  }
  return meanings
}

function latin(stream: PDFRawStream): string {
  return Buffer.from(decodePDFRawStream(stream).decode()).toString('latin1')
}
