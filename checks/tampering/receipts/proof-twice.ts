import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a link is proved twice',
  names: 'each once',
  tamper: () =>
    changed((loose) => {
      loose.proofs.push(structuredClone(loose.proofs.at(-1)) as (typeof loose.proofs)[number])
    }),
}
