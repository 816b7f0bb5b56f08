import { OTHER_LABEL } from '@rillmark/exchange/verify/verify.fixture.ts'
import { type ReceiptWay, changed } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'a receipt is passed off as that of another sample',
  names: 'an entry that names',
  tamper: () =>
    changed((loose) => {
      loose['sample'] = OTHER_LABEL
    }),
}
