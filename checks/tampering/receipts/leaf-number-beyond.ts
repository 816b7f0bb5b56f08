import { linkHash, type Link } from '@rillmark/casebook/chain/link.ts'
import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a link is given a number beyond the tree',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      Object.assign(first.leaf, { sequence: 23 })
      Object.assign(first.leaf, { hash: linkHash(first.leaf as unknown as Link) })
    }),
}
