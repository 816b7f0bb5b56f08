import { changed, given, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'an entry is left out of a signed receipt',
  names: 'one that does not fit what the receipt says',
  tamper: () =>
    changed((loose) => {
      loose.proofs.pop()
    }, given),
}
