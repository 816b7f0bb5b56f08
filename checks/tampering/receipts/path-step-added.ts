import { type ReceiptWay, proof, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a step is put behind a path',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      first.path.push(receipt.rootHash)
    }),
}
