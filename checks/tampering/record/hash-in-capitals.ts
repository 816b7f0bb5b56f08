import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a hash is written in capitals',
  breaksAt: 4,
  tamper: ({ links }) =>
    alter(links, { at: 4, change: (link) => (link['hash'] = `A${String(link['hash']).slice(1).toUpperCase()}`) }),
}
