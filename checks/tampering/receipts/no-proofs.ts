import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt proves nothing',
  names: 'proofs',
  tamper: () =>
    changed((loose) => {
      loose.proofs = []
    }),
}
