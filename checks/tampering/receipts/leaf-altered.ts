import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a volume is altered in a receipt',
  names: 'content that matches its hash',
  tamper: () =>
    proof((first) => {
      first.leaf.entry['body'].volumeMl = 2
    }),
}
