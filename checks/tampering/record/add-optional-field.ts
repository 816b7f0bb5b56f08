import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'an optional field is added to a body',
  breaksAt: 3,
  tamper: ({ links }) => alter(links, { at: 3, change: ({ entry }) => (entry.body['notes'] = 'seen at the spa') }),
}
