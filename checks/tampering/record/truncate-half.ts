import type { Way } from '../way.ts'

export const way: Way = {
  title: 'the second half is cut off',
  breaksAt: 7,
  needsHead: true,
  tamper: ({ links }) => links.slice(0, 6),
}
