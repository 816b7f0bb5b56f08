import { changed, given, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt says who gave it, and the signature is taken out',
  names: 'signature by the key of who gave it / none',
  tamper: () =>
    changed((loose) => {
      Reflect.deleteProperty(loose, 'signature')
    }, given),
}
