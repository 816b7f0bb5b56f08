import { type ReceiptWay, changed, later } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a step of the proof of continuation is dropped',
  names: 'hashes that lead elsewhere',
  tamper: () =>
    changed(({ since }) => {
      since.path.pop()
    }, later),
}
