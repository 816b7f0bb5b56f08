import type { ListedEntry } from '@rillmark/casebook/record/entry-list.ts'
import type { ReactNode } from 'react'
import { Tag } from '../kit/Tag.tsx'

/** How an entry stands beside its versions, and whether the server has it yet. Nothing where it simply counts. */
export function StandingTags({ row, waits }: { readonly row: ListedEntry; readonly waits: boolean }): ReactNode {
  const { standing, corrects, unsigned = false } = row
  if (standing === 'counts' && !waits && !unsigned) return null
  return (
    <span className="record-tags">
      {standing === 'amended' && (
        <Tag shape="half" kind="warn">
          amended since
        </Tag>
      )}
      {standing === 'amendment' && <Tag shape="full">amends No. {corrects ?? 'unknown'}</Tag>}
      {standing === 'withdrawn' && (
        <Tag shape="cross" kind="warn">
          withdrawn
        </Tag>
      )}
      {standing === 'withdrawal' && <Tag shape="cross">withdraws No. {corrects ?? 'unknown'}</Tag>}
      {standing === 'set aside' && (
        <Tag shape="cross" kind="warn">
          set aside: another account stands
        </Tag>
      )}
      {standing === 'contested' && (
        <Tag shape="half" kind="warn">
          not settled yet
        </Tag>
      )}
      {unsigned && (
        <Tag shape="dash" kind="warn">
          not signed
        </Tag>
      )}
      {waits && (
        <Tag shape="dashed" kind="warn">
          waits on this device
        </Tag>
      )}
    </span>
  )
}
