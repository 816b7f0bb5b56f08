import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the offset of a clock is altered in a receipt',
  names: 'content that matches its hash',
  tamper: () =>
    proof((first) => {
      Object.assign(first.leaf, { clockAheadS: 0 })
    }),
}
