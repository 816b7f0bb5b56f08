import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'a letter is written as an escape',
  breaksAt: 2,
  tamper: ({ links }) => rewrite(links, { at: 2, change: (line) => line.replace('two cases', '\\u0074wo cases') }),
}
