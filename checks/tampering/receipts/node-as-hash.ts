import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a leaf is given the hash of a node',
  names: 'content that matches its hash',
  tamper: () =>
    proof((first) => {
      Object.assign(first.leaf, { hash: first.path[0] })
    }),
}
