import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the signature is stripped from a receipt',
  names: 'content that matches its hash',
  tamper: () =>
    proof((first) => {
      delete first.leaf.entry['signature']
    }),
}
