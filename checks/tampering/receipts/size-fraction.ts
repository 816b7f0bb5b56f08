import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt claims a fraction of an entry',
  names: 'treeSize',
  tamper: () =>
    changed((loose) => {
      loose.treeSize = 22.5
    }),
}
