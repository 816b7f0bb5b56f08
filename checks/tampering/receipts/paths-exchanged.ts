import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'two links exchange their paths',
  names: 'leads elsewhere',
  tamper: () =>
    changed((loose) => {
      const [a, b] = loose.proofs
      if (a !== undefined && b !== undefined) [a.path, b.path] = [b.path, a.path]
    }),
}
