import { type ReceiptWay, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt is cut off',
  names: 'receipt',
  tamper: () => ({ receipt: JSON.stringify(receipt).slice(0, 300) }),
}
