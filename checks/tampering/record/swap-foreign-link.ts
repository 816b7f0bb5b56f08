import type { Way } from '../way.ts'

export const way: Way = {
  title: 'a link is exchanged for the same one of another investigation',
  breaksAt: 4,
  tamper: ({ links, other }) => links.toSpliced(3, 1, ...other.slice(3, 4)),
}
