import { type ReceiptWay, proof, flip } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'one letter of a path is altered',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      first.path[2] = flip(first.path[2] ?? '')
    }),
}
