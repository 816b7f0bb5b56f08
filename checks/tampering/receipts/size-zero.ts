import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt claims an empty tree',
  names: 'treeSize',
  tamper: () =>
    changed((loose) => {
      loose.treeSize = 0
    }),
}
