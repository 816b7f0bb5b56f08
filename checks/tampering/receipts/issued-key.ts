import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { changed, given, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the key of who gave a receipt is replaced',
  names: 'the name of another key',
  tamper: () =>
    changed((loose) => {
      loose.issued.key = { ...testKey('a stranger').key }
    }, given),
}
