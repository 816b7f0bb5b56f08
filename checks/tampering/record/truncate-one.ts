import type { Way } from '../way.ts'

export const way: Way = {
  title: 'the last link is cut off',
  breaksAt: 12,
  needsHead: true,
  tamper: ({ links }) => links.slice(0, -1),
}
