/** Puts a sheet of styles on from a script, so that no policy and no element of the page has to know of it. */
export function wear(styles: string): void {
  const sheet = new CSSStyleSheet()
  sheet.replaceSync(styles)
  document.adoptedStyleSheets.push(sheet)
}
