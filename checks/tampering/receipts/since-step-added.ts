import { type ReceiptWay, changed, later } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a step is added to the proof of continuation',
  names: 'hashes that lead elsewhere',
  tamper: () =>
    changed(({ since, rootHash }) => {
      since.path.push(rootHash)
    }, later),
}
