import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the time of receipt is moved back by a day',
  breaksAt: 9,
  tamper: ({ links }) => alter(links, { at: 9, change: (link) => (link['received'] = '2026-03-02T12:00:00.000Z') }),
}
