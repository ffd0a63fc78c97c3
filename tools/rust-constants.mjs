// The numbers that a Rust source names: those of its constants and statics.

/**
 * Every numeric literal in the constants and statics of a source, but for those
 * of its tests: its place in the text, and the item and the type it belongs to.
 * With `all` the literals of functions too, under the name of the function.
 */
export function constants(text, all = false) {
  const tokens = tokenise(text)
  const found = []
  const counts = new Map()
  const take = (token, name, type) => {
    const index = counts.get(name) ?? 0
    counts.set(name, index + 1)
    found.push({ at: token.at, text: token.text, line: lineOf(text, token.at), name, index, type })
  }
  let inside = ''
  for (let i = 0; i < tokens.length; i++) {
    if (isTest(tokens, i)) {
      i = endOfItem(tokens, i + 7)
      continue
    }
    if (tokens[i].text === 'fn') inside = tokens[i + 1].text
    const item = itemAt(tokens, i)
    if (item) {
      for (let j = item.from; j < item.to; j++) {
        if (tokens[j].kind === 'number') take(tokens[j], item.name, item.type)
      }
      i = item.to
    } else if (all && tokens[i].kind === 'number' && !isLength(tokens, i)) {
      take(tokens[i], inside, '')
    }
  }
  return found
}

/** `const NAME: Type = …;` or `static …`, not `const fn` and no generic one. */
function itemAt(tokens, i) {
  const [word, name, colon] = [tokens[i], tokens[i + 1], tokens[i + 2]].map(token => token?.text)
  if ((word !== 'const' && word !== 'static') || colon !== ':' || tokens[i + 1].kind !== 'word') return null
  const equals = endOfType(tokens, i + 3)
  if (tokens[equals]?.text !== '=') return null
  const type = tokens.slice(i + 3, equals).map(token => token.text)
  return { name, type: type.join(''), from: equals + 1, to: next(tokens, equals, [';']) }
}

/** What comes after a type: `=` behind that of an item, else it is a parameter. */
function endOfType(tokens, from) {
  let depth = 0
  for (let i = from; i < tokens.length; i++) {
    const { text } = tokens[i]
    if (depth === 0 && ['=', ',', '>'].includes(text)) return i
    if ('([<'.includes(text)) depth++
    if (')]>'.includes(text)) depth--
  }
  return tokens.length
}

/** The length of an array type, such as the 3 of `[f64; 3]`, is no value. */
function isLength(tokens, i) {
  return tokens[i - 1]?.text === ';' && tokens[i + 1]?.text === ']'
}

/** `#[cfg(test)]`. */
function isTest(tokens, i) {
  return (
    tokens
      .slice(i, i + 7)
      .map(token => token.text)
      .join('') === '#[cfg(test)]'
  )
}

/** The last token of the item that begins at `i`: its brace or semicolon. */
function endOfItem(tokens, i) {
  const end = next(tokens, i, [';', '{'])
  return tokens[end]?.text === '{' ? next(tokens, end + 1, ['}']) : end
}

/** The first of these outside any bracket that opens on the way. */
function next(tokens, from, wanted) {
  let depth = 0
  for (let i = from; i < tokens.length; i++) {
    const { text, kind } = tokens[i]
    if (depth === 0 && wanted.includes(text)) return i
    if (kind !== 'sign') continue
    if ('([{'.includes(text)) depth++
    if (')]}'.includes(text)) depth--
  }
  return tokens.length
}

const TOKEN = new RegExp(
  [
    String.raw`(?<skip>\s+|//[^\n]*|/\*[^]*?\*/)`,
    String.raw`(?<text>b?r(?<hashes>#*)"[^]*?"\k<hashes>|b?"(?:\\[^]|[^"\\])*"|b?'(?:\\[^][^']*|[^'\\])')`,
    String.raw`(?<word>'?[\p{L}_][\p{L}\p{N}_]*)`,
    String.raw`(?<number>[0-9][0-9_]*(?:\.[0-9][0-9_]*)?(?:e[+-]?[0-9_]+)?(?:f64|[iu](?:8|16|32|64|128|size))?)`,
    String.raw`(?<sign>[^])`,
  ].join('|'),
  'uy',
)

/** The tokens of a source. What follows a dot is a place in a tuple, no number. */
function tokenise(text) {
  const tokens = []
  TOKEN.lastIndex = 0
  for (let match = TOKEN.exec(text); match; match = TOKEN.exec(text)) {
    const kind = Object.keys(match.groups).find(kind => kind !== 'hashes' && match.groups[kind] !== undefined)
    if (kind === 'skip') continue
    const place = kind === 'number' && tokens.at(-1)?.text === '.' && tokens.at(-2)?.text !== '.'
    tokens.push({ at: match.index, text: match[0], kind: place ? 'sign' : kind })
  }
  return tokens
}

function lineOf(text, at) {
  return text.slice(0, at).split('\n').length
}
