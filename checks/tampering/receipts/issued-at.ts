import { changed, given, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the time at which a signed receipt was given is altered',
  names: 'one that does not fit what the receipt says',
  tamper: () =>
    changed((loose) => {
      loose.issued.at = '2026-03-01T13:00:00.000Z'
    }, given),
}
