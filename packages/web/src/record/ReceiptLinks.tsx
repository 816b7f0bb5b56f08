import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { ReactNode } from 'react'
import { useInvestigation } from '../store/investigation.tsx'

/** For an entry that names one sample: what a laboratory or another party can keep of it. The server makes it. */
export function ReceiptLinks({ entry }: { readonly entry: Entry }): ReactNode {
  const { id } = useInvestigation()
  const label = labelOf(entry)
  if (label === undefined) return null
  const address = (kind: string): string =>
    `/api/investigations/${encodeURIComponent(id)}/documents/${kind}?sample=${encodeURIComponent(label)}&download=1`
  return (
    <p>
      Receipt of {label}:{' '}
      <a href={address('receipt.json')} download>
        file
      </a>
      ,{' '}
      <a href={address('receipt.pdf')} download>
        page to keep
      </a>
    </p>
  )
}

function labelOf({ body }: Entry): string | undefined {
  return 'label' in body && typeof body.label === 'string' ? body.label : undefined
}
