import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the root of a receipt is in capitals',
  names: 'rootHash',
  tamper: () =>
    changed((loose) => {
      loose.rootHash = loose.rootHash.toUpperCase()
    }),
}
