import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the local offset is altered',
  breaksAt: 6,
  tamper: ({ links }) => alter(links, { at: 6, change: ({ entry }) => (entry['offset'] = '+01:00') }),
}
