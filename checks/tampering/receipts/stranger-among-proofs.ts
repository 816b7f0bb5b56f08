import { recordTree } from '@rillmark/casebook/receipt/record-tree.ts'
import { links } from '../package-way.ts'
import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a link that says nothing of the sample is put in',
  names: 'an entry that names',
  tamper: () =>
    changed((loose) => {
      const tree = recordTree(links)
      loose.proofs.push({
        leaf: structuredClone(links[20]) as unknown as (typeof loose.proofs)[number]['leaf'],
        path: tree.inclusionProof(20),
      })
      loose.proofs.sort((a, b) => a.leaf.sequence - b.leaf.sequence)
    }),
}
