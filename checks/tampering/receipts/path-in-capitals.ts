import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a path is written in capitals',
  names: 'path',
  tamper: () =>
    proof((first) => {
      first.path = first.path.map((step) => step.toUpperCase())
    }),
}
