import type { Link } from '@rillmark/casebook/chain/link.ts'
import { alter, entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'two entries of one device carry the same number, hashed afresh',
  breaksAt: 5,
  tamper: ({ links }) =>
    relink(entriesIn(alter(links, { at: 5, change: ({ entry }) => (entry['deviceSequence'] = 1) }) as Link[])),
}
