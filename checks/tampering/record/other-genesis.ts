import { type Link, linkHash } from '@rillmark/casebook/chain/link.ts'
import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the first link is tied to nothing (zeros), its hash made fresh',
  breaksAt: 1,
  tamper: ({ links }) =>
    alter(links, {
      at: 1,
      change: (link) => {
        link['previous'] = '0'.repeat(64)
        link['hash'] = linkHash(link as unknown as Link)
      },
    }),
}
