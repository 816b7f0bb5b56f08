import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { linked } from '@rillmark/exchange/verify/verify.fixture.ts'
import { entries } from '../package-way.ts'
import { type ReceiptWay, receiptOf } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a whole tree is forged around an altered entry',
  names: 'does not fit what it says',
  tamper: () => ({
    receipt: receiptOf(
      linked(entries.map((entry, at) => (at === 7 ? ({ ...entry, author: 'F. Moss' } as Entry) : entry))),
    ),
  }),
}
