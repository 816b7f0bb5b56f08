import { recordTree } from '@rillmark/casebook/receipt/record-tree.ts'
import { links } from '../package-way.ts'
import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'what is no joining stands among the keys',
  names: 'how a device joined',
  tamper: () =>
    changed((loose) => {
      const path = recordTree(links).inclusionProof(21)
      loose.devices.push({
        leaf: structuredClone(links[21]) as unknown as (typeof loose.devices)[number]['leaf'],
        path,
      })
    }),
}
