import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a link says more than a link does',
  names: 'leaf',
  tamper: () =>
    proof((first) => {
      first.leaf['approved'] = true
    }),
}
