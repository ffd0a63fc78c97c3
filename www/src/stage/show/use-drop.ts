import { useDropped } from '../../base/use-dropped'
import { importFile } from './shows'

/** The file of a show that is dropped on the page is opened; other files are for others. */
export function useDrop(): void {
  useDropped(file => {
    if (isShow(file)) void importFile(file)
  })
}

function isShow({ name, type }: File): boolean {
  return /\.(json|html?)$/i.test(name) || ['application/json', 'text/html'].includes(type)
}
