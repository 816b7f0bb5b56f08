import { recordTree } from '@rillmark/casebook/receipt/record-tree.ts'
import { links } from '../package-way.ts'
import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'how the phone joined is exchanged for the desk',
  names: 'has not joined',
  tamper: () =>
    changed((loose) => {
      loose.devices = [
        {
          leaf: structuredClone(links[2]) as unknown as (typeof loose.devices)[number]['leaf'],
          path: recordTree(links).inclusionProof(2),
        },
      ]
    }),
}
