import type { SystemChange } from '@rillmark/casebook/building/kinds.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { useCallback } from 'react'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'

export interface Edit {
  readonly changes: readonly SystemChange[]
  readonly why?: string | undefined
  /** What was done, said at the foot of the screen with a way back. */
  readonly said: string
}

/** Records an edit of the building and offers to take it back; gives the issues where the record refuses it. */
export function useEdit(): (edit: Edit) => Promise<readonly Issue[]> {
  const { propose } = useInvestigation()
  const { say } = useToasts()
  return useCallback(
    async ({ changes, why = '', said }) => {
      const reason = why.trim()
      const body = reason === '' ? { changes: [...changes] } : { changes: [...changes], why: reason }
      const proposed = await propose('building.edited', body)
      if (!proposed.ok) return proposed.issues
      const corrects = { entry: proposed.entry.id, reason: 'taken back at once' }
      say(said, { undo: () => void propose('entry.withdrawn', {}, { corrects }) })
      return []
    },
    [propose, say],
  )
}
