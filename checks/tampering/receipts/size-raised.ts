import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt claims a larger tree',
  names: 'leads elsewhere',
  tamper: () =>
    changed((loose) => {
      loose.treeSize = 40
    }),
}
