import type { Way } from '../way.ts'

export const way: Way = {
  title: 'the last link is there twice',
  breaksAt: 13,
  tamper: ({ links }) => [...links, ...links.slice(-1)],
}
