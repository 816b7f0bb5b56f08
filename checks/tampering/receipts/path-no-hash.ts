import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a step of a path is no hash',
  names: 'path',
  tamper: () =>
    proof((first) => {
      first.path[0] = 'left'
    }),
}
