/** What is done with the whole input list: tables in and out, the proposal, print. */
export function ListTools() {
  return null
}
