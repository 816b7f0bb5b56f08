import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'an optional field is taken out of a body',
  breaksAt: 3,
  tamper: ({ links }) => alter(links, { at: 3, change: ({ entry }) => delete entry.body['onsetDate'] }),
}
