import { type ReceiptWay, proof, flip } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the hash of a link is altered in a receipt',
  names: 'content that matches its hash',
  tamper: () =>
    proof((first) => {
      Object.assign(first.leaf, { hash: flip(first.leaf.hash) })
    }),
}
