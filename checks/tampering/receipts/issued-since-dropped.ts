import { changed, givenLater, type ReceiptWay } from '../receipt-way.ts'

export const way: ReceiptWay = {
  title: 'what a signed receipt goes on from is taken out',
  names: 'one that does not fit what the receipt says',
  tamper: () =>
    changed((loose) => {
      Reflect.deleteProperty(loose, 'since')
    }, givenLater),
}
