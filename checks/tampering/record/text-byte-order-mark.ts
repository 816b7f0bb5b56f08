import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'a byte order mark is put in front',
  breaksAt: 1,
  tamper: ({ links }) => rewrite(links, { at: 1, change: (line) => `\ufeff${line}` }),
}
