import type { ReactNode } from 'react'
import { useState } from 'react'
import { TextField } from '../kit/TextField.tsx'
import type { ProposeOptions } from '../store/investigation-store.ts'

/** For a dialog that writes something new or amends what is there: what the entry corrects, and the field for the reason, where there is one. */
export function useAmendment(amends: { readonly id: string } | undefined): {
  readonly options: ProposeOptions
  readonly field: ReactNode
} {
  const [reason, setReason] = useState('')
  if (amends === undefined) return { options: {}, field: null }
  return {
    options: { corrects: { entry: amends.id, reason } },
    field: <TextField label="Reason for the amendment" value={reason} onChange={setReason} required width="full" />,
  }
}
