import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the hash of a link is altered by one digit',
  breaksAt: 4,
  tamper: ({ links }) =>
    alter(links, {
      at: 4,
      change: (link) => (link['hash'] = String(link['hash']).replace(/.$/, (digit) => (digit === '0' ? '1' : '0'))),
    }),
}
