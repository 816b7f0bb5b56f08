import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { PARTS, linked } from '@rillmark/exchange/verify/verify.fixture.ts'
import { entries } from '../package-way.ts'
import { type ReceiptWay, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the record was received at another time than the receipt says',
  names: 'was altered',
  tamper: () => ({ receipt, package: writePackage(linked(entries, '2026-02-02T12:00:00.000Z'), PARTS) }),
}
