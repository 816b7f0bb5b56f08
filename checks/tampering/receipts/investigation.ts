import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt is passed off as that of another investigation',
  names: 'an entry of quay-hotel',
  tamper: () =>
    changed((loose) => {
      loose.investigation = 'quay-hotel'
    }),
}
