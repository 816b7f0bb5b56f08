import type { Way } from '../way.ts'

export const way: Way = {
  title: 'a link in the middle is dropped',
  breaksAt: 7,
  tamper: ({ links }) => links.toSpliced(6, 1),
}
