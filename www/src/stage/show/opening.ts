import { emptyShow, openShow } from './project'

/** Opens the show that was open last. */
export async function openLastShow(): Promise<void> {
  openShow(emptyShow())
}
