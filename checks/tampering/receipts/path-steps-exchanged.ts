import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'two steps of a path are exchanged',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      first.path.splice(1, 2, first.path[2] ?? '', first.path[1] ?? '')
    }),
}
