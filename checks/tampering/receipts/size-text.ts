import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt gives its size in text',
  names: 'treeSize',
  tamper: () =>
    changed((loose) => {
      loose['treeSize'] = '22' as unknown as number
    }),
}
