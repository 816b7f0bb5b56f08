import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a link is given another number in a receipt',
  names: 'content that matches its hash',
  tamper: () =>
    proof((first) => {
      Object.assign(first.leaf, { sequence: 7 })
    }),
}
