import { receiptJson } from '@rillmark/exchange/receipt/receipt-json.ts'
import { type ReceiptWay, flip, receipt } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt says a thing twice',
  names: 'the same said otherwise',
  tamper: () => ({ receipt: receiptJson(receipt).replace('{', `{"rootHash":"${flip(receipt.rootHash)}",`) }),
}
