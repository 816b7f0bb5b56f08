import { type ReceiptWay, changed, flip, later } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the earlier root in a later receipt is altered',
  names: 'hashes that lead elsewhere',
  tamper: () =>
    changed(({ since }) => {
      since.rootHash = flip(since.rootHash)
    }, later),
}
