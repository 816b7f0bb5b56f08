import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { linked } from '@rillmark/exchange/verify/verify.fixture.ts'
import { signedBy, keyOf } from '../forge.ts'
import { entries } from '../package-way.ts'
import { type ReceiptWay, receiptOf } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a whole tree is forged in which the phone has the forger’s key',
  names: 'signed by another key',
  tamper: () => ({
    receipt: receiptOf(
      linked(
        entries.map((entry) =>
          entry.kind === 'device.joined' && entry.device === 'phone-1'
            ? (signedBy('forger', { ...entry, body: { ...entry.body, key: keyOf('forger').key } }) as unknown as Entry)
            : entry,
        ),
      ),
    ),
  }),
}
