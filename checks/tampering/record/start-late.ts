import { entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'the record begins at a later link, renumbered and hashed afresh',
  breaksAt: 11,
  needsHead: true,
  tamper: ({ links }) => relink(entriesIn(links).slice(2)),
}
