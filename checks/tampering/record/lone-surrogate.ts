import type { Link } from '@rillmark/casebook/chain/link.ts'
import { alter, entriesIn, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'half of a surrogate pair stands where a replacement sign would have the same bytes',
  breaksAt: 2,
  tamper: ({ links }) => {
    const forged = relink(
      entriesIn(alter(links, { at: 2, change: ({ entry }) => (entry.body['text'] = 'x\ufffd') }) as Link[]),
    )
    return alter(forged, { at: 2, change: ({ entry }) => (entry.body['text'] = 'x\ud800') })
  },
}
