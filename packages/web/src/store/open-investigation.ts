import { useEffect, useState } from 'react'
import { useDevice } from './device.tsx'
import type { InvestigationStore } from './investigation-store.ts'

export type Opening =
  | { readonly kind: 'opening' }
  | { readonly kind: 'open'; readonly store: InvestigationStore }
  | { readonly kind: 'unknown' }
  | { readonly kind: 'failed'; readonly reason: string }

const OPENING: Opening = { kind: 'opening' }

/** Opens one investigation of this device and follows which it is. */
export function useOpening(id: string): Opening {
  const device = useDevice()
  const [settled, setSettled] = useState<{ readonly id: string; readonly opening: Opening }>()
  useEffect(() => {
    let wanted = true
    const settle = (opening: Opening): void => {
      if (wanted) setSettled({ id, opening })
    }
    device.open(id).then(
      (store) => settle(store === undefined ? { kind: 'unknown' } : { kind: 'open', store }),
      (error: unknown) => settle({ kind: 'failed', reason: String(error) }),
    )
    return () => {
      wanted = false
    }
  }, [device, id])
  return settled?.id === id ? settled.opening : OPENING
}
