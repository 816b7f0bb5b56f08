import { type ReceiptWay, proof, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a path is longer than any tree',
  names: 'path',
  tamper: () =>
    proof((first) => {
      first.path = Array.from({ length: 65 }, () => receipt.rootHash)
    }),
}
