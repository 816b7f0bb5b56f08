import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the reason of an amendment is altered',
  breaksAt: 6,
  tamper: ({ links }) =>
    alter(links, {
      at: 6,
      change: ({ entry }) => (entry['corrects'] = { ...(entry['corrects'] as object), reason: 'asked to' }),
    }),
}
