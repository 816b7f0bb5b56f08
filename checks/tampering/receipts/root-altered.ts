import { type ReceiptWay, changed, flip } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the root of a receipt is altered',
  names: 'leads elsewhere',
  tamper: () =>
    changed((loose) => {
      loose.rootHash = flip(loose.rootHash)
    }),
}
