import { dropped } from '../forge.ts'
import { type ReceiptWay, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the record was cut short after the receipt',
  names: 'cut short',
  tamper: () => ({ receipt, package: dropped(22) }),
}
