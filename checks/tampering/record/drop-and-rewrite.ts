import { entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'an entry is dropped and the whole record hashed afresh',
  breaksAt: 12,
  needsHead: true,
  tamper: ({ links }) => relink(entriesIn(links).toSpliced(8, 1)),
}
