import { linkHash, type Link } from '@rillmark/casebook/chain/link.ts'
import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a link is given another number and hashed afresh',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      Object.assign(first.leaf, { sequence: 7 })
      Object.assign(first.leaf, { hash: linkHash(first.leaf as unknown as Link) })
    }),
}
