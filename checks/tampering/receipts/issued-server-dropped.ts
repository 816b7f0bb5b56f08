import { changed, given, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'how the server joined is left out of a signed receipt',
  names: 'one that does not fit what the receipt says',
  tamper: () =>
    changed((loose) => {
      loose.devices.shift()
    }, given),
}
