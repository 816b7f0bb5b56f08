import { entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'times of receipt run backwards, hashed afresh',
  breaksAt: 9,
  tamper: ({ links }) =>
    relink(entriesIn(links), (index) => (index < 8 ? '2026-03-03T09:00:00.000Z' : '2026-03-02T09:00:00.000Z')),
}
