import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the keys are taken out of a receipt',
  names: 'has not joined',
  tamper: () =>
    changed((loose) => {
      loose.devices = []
    }),
}
