import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a field is set to null',
  breaksAt: 4,
  tamper: ({ links }) => alter(links, { at: 4, change: ({ entry }) => (entry.body['notes'] = null) }),
}
