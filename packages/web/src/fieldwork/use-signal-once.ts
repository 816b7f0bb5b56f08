import { useEffect } from 'react'
import { giveSignal, type SignalKind } from '../signal/signal.ts'
import type { DraftHandle } from './drafts.ts'

/**
 * Signals once for each `occasion`, however often the page is drawn or loaded again; what was signalled is kept in the draft under `field`.
 * An occasion that came while the page was hidden is signalled when it is seen again.
 */
export function useSignalOnce(of: {
  kind: SignalKind
  occasion: string | undefined
  field: string
  draft: DraftHandle
}): void {
  const { kind, occasion, field, draft } = of
  const told = draft.get(field)
  const { read } = draft
  useEffect(() => {
    // the older of two copies may not know that it was told
    if (!read || occasion === undefined || occasion === told || document.hidden) return
    draft.set({ [field]: occasion })
    giveSignal(kind)
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the draft is written, not read, when the occasion comes
  }, [kind, occasion, told, field, read, document.hidden])
}
