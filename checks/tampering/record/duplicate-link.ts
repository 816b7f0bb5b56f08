import type { Way } from '../way.ts'

export const way: Way = {
  title: 'a link is there twice',
  breaksAt: 6,
  tamper: ({ links }) => links.toSpliced(5, 0, ...links.slice(4, 5)),
}
