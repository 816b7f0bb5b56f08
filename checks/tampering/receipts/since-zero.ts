import { type ReceiptWay, changed, later } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a later receipt goes on from nothing',
  names: 'since.treeSize',
  tamper: () =>
    changed(({ since }) => {
      since.treeSize = 0
    }, later),
}
