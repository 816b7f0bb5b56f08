import { entriesIn, relink, swap, type Way } from '../way.ts'

export const way: Way = {
  title: 'two entries of one device change places and everything is hashed afresh',
  breaksAt: 5,
  tamper: ({ links }) => relink(swap(entriesIn(links), { a: 4, b: 5 })),
}
