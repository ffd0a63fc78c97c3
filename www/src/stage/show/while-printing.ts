/** Calls `begin` when the page goes on paper and `end` when it has gone; answers what ends that. */
export function whilePrinting(begin: () => void, end: () => void): () => void {
  addEventListener('beforeprint', begin)
  addEventListener('afterprint', end)
  return () => {
    removeEventListener('beforeprint', begin)
    removeEventListener('afterprint', end)
  }
}
