import { moved } from '../forge.ts'
import { type ReceiptWay, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'two entries of the record exchanged their places after the receipt',
  names: 'was altered',
  tamper: () => ({ receipt, package: moved(11, 12) }),
}
