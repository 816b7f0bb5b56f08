import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'how a device joined leads elsewhere',
  names: 'leads elsewhere',
  tamper: () =>
    changed((loose) => {
      loose.devices[0]?.path.pop()
    }),
}
