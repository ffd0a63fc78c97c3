import { useEffect, useRef } from 'preact/hooks'

/** Takes a file that is dropped anywhere on the page. */
export function useDropped(onFile: (file: File) => void): void {
  const taken = useRef(onFile)
  taken.current = onFile
  useEffect(() => {
    const over = (event: DragEvent) => {
      // The browser would leave the page for it.
      if (event.dataTransfer?.types.includes('Files') === true) event.preventDefault()
    }
    const drop = (event: DragEvent) => {
      const [file] = event.dataTransfer?.files ?? []
      if (file === undefined || event.defaultPrevented) return
      event.preventDefault()
      taken.current(file)
    }
    document.addEventListener('dragover', over)
    document.addEventListener('drop', drop)
    return () => {
      document.removeEventListener('dragover', over)
      document.removeEventListener('drop', drop)
    }
  }, [])
}
