import { linked } from '@rillmark/exchange/verify/verify.fixture.ts'
import { entries } from '../package-way.ts'
import { type ReceiptWay, receipt, receiptOf } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'two receipts of one size name two roots',
  names: 'as the other receipt of 22 entries',
  tamper: () => ({ beside: receipt, receipt: receiptOf(linked(entries, '2026-02-02T12:00:00.000Z')) }),
}
