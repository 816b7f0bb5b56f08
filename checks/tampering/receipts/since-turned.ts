import { type ReceiptWay, changed, later } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the proof of continuation is turned round',
  names: 'hashes that lead elsewhere',
  tamper: () =>
    changed(({ since }) => {
      since.path.reverse()
    }, later),
}
