import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt says more than a receipt does',
  names: 'approvedBy',
  tamper: () =>
    changed((loose) => {
      loose['approvedBy'] = 'everyone'
    }),
}
