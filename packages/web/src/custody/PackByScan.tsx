import { type ReactNode, useRef } from 'react'
import { ScanDialog, type ScanAnswer } from '../scan/ScanDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { checkLabel } from './label-check.ts'

const FORMATS = ['data_matrix', 'qr_code'] as const

/** Packs bottle after bottle by scanning: each label is packed or refused at once, with a sound and the reason. */
export function PackByScan({ code, onClose }: { readonly code: string; readonly onClose: () => void }): ReactNode {
  const { state, propose } = useInvestigation()
  const packed = useRef(0)
  const found = async (text: string): Promise<ScanAnswer> => {
    const check = checkLabel(state, text)
    if (check.kind === 'wrong') return { kind: 'wrong', words: check.advice }
    if (check.kind !== 'right') return { kind: 'wrong', words: 'That is not a whole label. Read the bottle again.' }
    const proposed = await propose('sample.packed', { consignment: code, label: check.label })
    if (!proposed.ok) {
      const [first] = proposed.issues
      return { kind: 'wrong', words: `Not packed: expected ${first?.expected ?? 'something else'}.` }
    }
    packed.current += 1
    return { kind: 'right', words: `${check.label} is in ${code}, ${check.words}. ${packed.current} packed now.` }
  }
  return (
    <ScanDialog
      title={`Pack into ${code}`}
      formats={FORMATS}
      onFound={found}
      onClose={onClose}
      typeLabel="Or type a label"
    />
  )
}
