/**
 * For inputs whose text is no prose: it stays as it was typed.
 *
 * `autoCorrect` is spelled so on purpose. Where the browser has a property of
 * the name in small letters, Preact sets that one, which takes any text, `off`
 * too, for true; so spelled it writes the attribute.
 */
export const AS_TYPED = {
  autocomplete: 'off',
  autocapitalize: 'none',
  autoCorrect: 'off',
  spellcheck: false,
} as const
