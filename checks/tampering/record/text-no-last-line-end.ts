import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'the last line has no end',
  breaksAt: 12,
  tamper: ({ links }) => rewrite(links, { at: 12, change: (line) => `${line} ` }).slice(0, -2),
}
