import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a node of the tree is passed off as a leaf',
  names: 'leaf',
  tamper: () =>
    proof((first) => {
      first.leaf = { left: first.path[0], right: first.path[1] } as unknown as typeof first.leaf
    }),
}
