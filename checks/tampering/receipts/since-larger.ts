import { type ReceiptWay, changed, later } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a later receipt goes on from a larger record',
  names: 'hashes that lead elsewhere',
  tamper: () =>
    changed(({ since }) => {
      since.treeSize = 90
    }, later),
}
