import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a path is turned round',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      first.path.reverse()
    }),
}
