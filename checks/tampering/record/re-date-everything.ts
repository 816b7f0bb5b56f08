import { entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'all times of receipt are moved by a week, hashed afresh',
  breaksAt: 12,
  needsHead: true,
  tamper: ({ links }) => relink(entriesIn(links), () => '2026-03-09T09:00:00.000Z'),
}
