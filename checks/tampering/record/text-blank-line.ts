import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'an empty line is put in',
  breaksAt: 3,
  tamper: ({ links }) => rewrite(links, { at: 3, change: (line) => `\n${line}` }),
}
