import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'the text ends in the middle of a line',
  breaksAt: 12,
  tamper: ({ links }) => rewrite(links, { at: 12, change: (line) => `${line} ` }).slice(0, -20),
}
