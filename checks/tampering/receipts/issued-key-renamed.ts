import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { changed, given, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the key of who gave a receipt and its name are replaced, the signature left',
  names: 'one that does not fit what the receipt says',
  tamper: () =>
    changed((loose) => {
      loose.issued.key = { ...testKey('a stranger').key }
      loose.signature.key = testKey('a stranger').issuer.thumbprint
    }, given),
}
