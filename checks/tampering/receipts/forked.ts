import { linked } from '@rillmark/exchange/verify/verify.fixture.ts'
import { entries, links } from '../package-way.ts'
import { type ReceiptWay, receipt, receiptOf, grownEntries } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the record was forked after the earlier receipt',
  names: 'a later receipt made since',
  tamper: () => ({
    beside: receipt,
    receipt: receiptOf(linked([...entries.slice(0, 20), ...grownEntries.slice(22)]), {
      since: receiptOf(links.slice(0, 20)),
    }),
  }),
}
