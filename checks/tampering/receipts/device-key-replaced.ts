import { keyOf } from '../forge.ts'
import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'the key in a receipt is replaced by the forger’s',
  names: 'content that matches its hash',
  tamper: () =>
    changed((loose) => {
      const [device] = loose.devices
      if (device !== undefined) device.leaf.entry['body'].key = keyOf('forger').key
    }),
}
