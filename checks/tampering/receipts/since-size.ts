import { type ReceiptWay, changed, later } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the earlier size in a later receipt is altered',
  names: 'hashes that lead elsewhere',
  tamper: () =>
    changed(({ since }) => {
      since.treeSize = 21
    }, later),
}
