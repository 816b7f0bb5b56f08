import { type ReceiptWay, proof, foreign } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a link of another investigation is put in',
  names: 'an entry of marram-house',
  tamper: () =>
    proof((first) => {
      first.leaf = structuredClone(foreign.proofs[0]?.leaf) as typeof first.leaf
    }),
}
