import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a link is given another number',
  breaksAt: 4,
  tamper: ({ links }) => alter(links, { at: 4, change: (link) => (link['sequence'] = 5) }),
}
