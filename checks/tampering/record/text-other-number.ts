import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'a number is written another way',
  breaksAt: 4,
  tamper: ({ links }) => rewrite(links, { at: 4, change: (line) => line.replace('48.5', '48.50') }),
}
