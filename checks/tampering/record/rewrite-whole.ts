import type { Link } from '@rillmark/casebook/chain/link.ts'
import { alter, entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'an entry is altered and the whole record hashed afresh',
  breaksAt: 12,
  needsHead: true,
  tamper: ({ links }) =>
    relink(
      entriesIn(
        alter(links, { at: 3, change: ({ entry }) => (entry.body['classification'] = 'not a case') }) as Link[],
      ),
    ),
}
