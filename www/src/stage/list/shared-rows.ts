import { useMemo, useRef } from 'preact/hooks'
import type { Row } from '../../../generated/contract'
import { shareStructure } from '../../base/structural-sharing'
import { useProject } from '../show/project'

/** The rows as they were solved last; one that came out the same is the same object, and is not drawn again. */
export function useRows(): ReadonlyMap<string, Row> {
  const rows = useProject(({ rows }) => rows)
  const last = useRef<ReadonlyMap<string, Row>>(rows)
  return useMemo(() => {
    const before = last.current
    last.current = new Map([...rows].map(([id, row]) => [id, shareStructure(before.get(id), row)]))
    return last.current
  }, [rows])
}
