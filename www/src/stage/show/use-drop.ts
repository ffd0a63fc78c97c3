import { useEffect } from 'preact/hooks'
import { importFile } from './shows'

/** The file of a show that is dropped on the page is opened; other files are for others. */
export function useDrop(): void {
  useEffect(() => {
    const over = (event: DragEvent) => {
      // The browser would leave the page for it.
      if (event.dataTransfer?.types.includes('Files') === true) event.preventDefault()
    }
    const drop = (event: DragEvent) => {
      const [file] = event.dataTransfer?.files ?? []
      if (file === undefined || event.defaultPrevented) return
      event.preventDefault()
      if (isShow(file)) void importFile(file)
    }
    document.addEventListener('dragover', over)
    document.addEventListener('drop', drop)
    return () => {
      document.removeEventListener('dragover', over)
      document.removeEventListener('drop', drop)
    }
  }, [])
}

function isShow({ name, type }: File): boolean {
  return /\.(json|html?)$/i.test(name) || ['application/json', 'text/html'].includes(type)
}
