import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the tie of a link is altered by one digit',
  breaksAt: 4,
  tamper: ({ links }) =>
    alter(links, {
      at: 4,
      change: (link) =>
        (link['previous'] = String(link['previous']).replace(/.$/, (digit) => (digit === '0' ? '1' : '0'))),
    }),
}
