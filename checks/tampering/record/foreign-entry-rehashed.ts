import { entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'an entry of another investigation is put in and everything hashed afresh',
  breaksAt: 4,
  tamper: ({ links, other }) => relink(entriesIn(links).toSpliced(3, 1, ...entriesIn(other).slice(3, 4))),
}
