import { resealed, unsignedNext, NOTE } from '../forge.ts'
import { type ReceiptWay, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'an entry was put into the record after the receipt',
  names: 'was altered',
  tamper: () => ({ receipt, package: resealed((list) => list.toSpliced(19, 0, unsignedNext('phone-8', NOTE))) }),
}
