import type { Way } from '../way.ts'

export const way: Way = {
  title: 'a link of another investigation is put in',
  breaksAt: 4,
  tamper: ({ links, other }) => links.toSpliced(3, 0, ...other.slice(3, 4)),
}
