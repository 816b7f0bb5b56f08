import type { Way } from '../way.ts'

export const way: Way = {
  title: 'a link is dropped and the rest renumbered',
  breaksAt: 7,
  tamper: ({ links }) => links.toSpliced(6, 1).map((link, index) => ({ ...link, sequence: index + 1 })),
}
