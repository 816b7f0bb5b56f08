import { changed, given, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'who gave a receipt is taken out, the signature left',
  names: 'a signature without it',
  tamper: () =>
    changed((loose) => {
      Reflect.deleteProperty(loose, 'issued')
    }, given),
}
