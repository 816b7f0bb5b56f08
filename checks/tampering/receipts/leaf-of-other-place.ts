import { type ReceiptWay, proof, otherSample } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'another link is put in place of one',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      first.leaf = structuredClone(otherSample.proofs[0]?.leaf) as typeof first.leaf
    }),
}
