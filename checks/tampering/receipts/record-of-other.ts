import { packageOf } from '@rillmark/exchange/verify/verify.fixture.ts'
import { otherEntries } from '../package-way.ts'
import { type ReceiptWay, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt is held against another investigation',
  names: 'a receipt of quay-hotel',
  tamper: () => ({ receipt, package: packageOf(otherEntries) }),
}
