import { changed, given, givenLater, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt carries the signature of another by the same server',
  names: 'one that does not fit what the receipt says',
  tamper: () =>
    changed((loose) => {
      loose.signature = { ...(givenLater.signature ?? loose.signature) }
    }, given),
}
