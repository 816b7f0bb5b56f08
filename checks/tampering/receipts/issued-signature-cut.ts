import { changed, given, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the signature of who gave a receipt is cut short',
  names: 'signature.value',
  tamper: () =>
    changed((loose) => {
      loose.signature.value = loose.signature.value.slice(0, -2)
    }, given),
}
