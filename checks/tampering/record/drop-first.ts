import type { Way } from '../way.ts'

export const way: Way = {
  title: 'the first link is dropped',
  breaksAt: 1,
  tamper: ({ links }) => links.slice(1),
}
