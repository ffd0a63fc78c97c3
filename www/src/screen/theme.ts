// How the page is coloured.

export const THEMES = ['system', 'light', 'dark', 'stage'] as const
export type Theme = (typeof THEMES)[number]

export function showTheme(theme: Theme): void {
  const root = document.documentElement
  if (theme === 'system') delete root.dataset['theme']
  else root.dataset['theme'] = theme
  // The colour of the browser's own bars: that of the page names two, for the
  // device's choice; a reader's own choice comes before them.
  document.getElementById('chosen-colour')?.remove()
  if (theme === 'system') return
  const chosen = document.createElement('meta')
  chosen.id = 'chosen-colour'
  chosen.name = 'theme-color'
  chosen.content = getComputedStyle(root).getPropertyValue('--ground')
  document.head.prepend(chosen)
}
