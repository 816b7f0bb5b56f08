import { type Link, linkHash } from '@rillmark/casebook/chain/link.ts'
import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'one entry is altered and its own hash made fresh',
  breaksAt: 5,
  tamper: ({ links }) =>
    alter(links, {
      at: 4,
      change: (link) => {
        link.entry.body['notes'] = 'steady'
        link['hash'] = linkHash(link as unknown as Link)
      },
    }),
}
