import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a case is re-dated by a day',
  breaksAt: 3,
  tamper: ({ links }) => alter(links, { at: 3, change: ({ entry }) => (entry.body['onsetDate'] = '2026-02-21') }),
}
