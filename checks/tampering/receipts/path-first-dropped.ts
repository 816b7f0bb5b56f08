import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the first step of a path is dropped',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      first.path.shift()
    }),
}
