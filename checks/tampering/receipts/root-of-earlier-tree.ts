import { recordTree } from '@rillmark/casebook/receipt/record-tree.ts'
import { links } from '../package-way.ts'
import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the root of a receipt is that of an earlier tree',
  names: 'leads elsewhere',
  tamper: () =>
    changed((loose) => {
      loose.rootHash = recordTree(links).root(20)
    }),
}
