import { type ReceiptWay, changed, flip, later } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a step of the proof of continuation is altered',
  names: 'hashes that lead elsewhere',
  tamper: () =>
    changed(({ since }) => {
      since.path[0] = flip(since.path[0] ?? '')
    }, later),
}
