import { sound } from '../package-way.ts'
import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt leaves out an amendment, and is held against the record',
  names: 'it left out',
  tamper: () => ({
    ...changed((loose) => {
      loose.proofs = loose.proofs.filter(({ leaf }) => leaf.sequence !== 19)
    }),
    package: sound,
  }),
}
