import { linkHash, type Link } from '@rillmark/casebook/chain/link.ts'
import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a volume is altered in a receipt and its link hashed afresh',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      first.leaf.entry['body'].volumeMl = 2
      Object.assign(first.leaf, { hash: linkHash(first.leaf as unknown as Link) })
    }),
}
