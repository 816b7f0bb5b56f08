import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the id is written in capitals',
  breaksAt: 7,
  tamper: ({ links }) =>
    alter(links, {
      at: 7,
      change: ({ entry }) => (entry['id'] = String(entry['id']).toUpperCase().replace(/^./, 'F')),
    }),
}
