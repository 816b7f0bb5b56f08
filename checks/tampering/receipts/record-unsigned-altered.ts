import { altered } from '../forge.ts'
import { type ReceiptWay, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'an unsigned entry of the record was altered after the receipt',
  names: 'was altered',
  tamper: () => ({
    receipt,
    package: altered(1, ({ body }) => {
      body['reason'] = 'one case'
    }),
  }),
}
