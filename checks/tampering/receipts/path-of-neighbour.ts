import { recordTree } from '@rillmark/casebook/receipt/record-tree.ts'
import { links } from '../package-way.ts'
import { type ReceiptWay, proof } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a path is that of the link beside',
  names: 'leads elsewhere',
  tamper: () =>
    proof((first) => {
      first.path = recordTree(links).inclusionProof(8)
    }),
}
