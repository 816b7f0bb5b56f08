import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the links of a receipt are out of order',
  names: 'in order',
  tamper: () =>
    changed((loose) => {
      loose.proofs.reverse()
    }),
}
