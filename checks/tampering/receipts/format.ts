import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt names another format',
  names: 'format',
  tamper: () =>
    changed((loose) => {
      loose['format'] = 'rillmark/receipt@2' as typeof loose.format
    }),
}
