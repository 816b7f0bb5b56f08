import type { Link } from '@rillmark/casebook/chain/link.ts'
import { alter, entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'the last entry is altered and hashed afresh',
  breaksAt: 12,
  needsHead: true,
  tamper: ({ links }) =>
    relink(entriesIn(alter(links, { at: 12, change: ({ entry }) => (entry.body['text'] = 'all well') }) as Link[])),
}
