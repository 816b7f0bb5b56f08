import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { LABEL, linked } from '@rillmark/exchange/verify/verify.fixture.ts'
import { unsignedNext, NOTE } from '../forge.ts'
import { sound, entries } from '../package-way.ts'
import { type ReceiptWay, receiptOf } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a whole tree is forged with an unsigned entry, and held against the record',
  names: 'was altered',
  tamper: () => ({
    receipt: receiptOf(
      linked(
        entries.toSpliced(
          21,
          1,
          unsignedNext('desk-0', { ...NOTE, body: { text: LABEL, purpose: 'note' } }) as unknown as Entry,
        ),
      ),
    ),
    package: sound,
  }),
}
