import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the time of receipt is altered in a receipt',
  names: 'content that matches its hash',
  tamper: () =>
    proof((first) => {
      Object.assign(first.leaf, { received: '2026-03-01T12:00:00.000Z' })
    }),
}
