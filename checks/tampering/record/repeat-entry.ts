import { entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'an entry is added again under a fresh link',
  breaksAt: 13,
  tamper: ({ links }) => relink([...entriesIn(links), ...entriesIn(links).slice(1, 2)]),
}
