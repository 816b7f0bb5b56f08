import { entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'a time of receipt is written with an offset, hashed afresh',
  breaksAt: 1,
  tamper: ({ links }) => relink(entriesIn(links), () => '2026-03-03T09:00:00.000+00:00'),
}
