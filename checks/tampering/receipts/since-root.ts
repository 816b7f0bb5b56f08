import { links } from '../package-way.ts'
import { type ReceiptWay, receipt, grown, receiptOf } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a later receipt goes on from another receipt than the one that is held',
  names: 'a later receipt made since',
  tamper: () => ({ beside: receipt, receipt: receiptOf(grown, { since: receiptOf(links.slice(0, 20)) }) }),
}
