import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'a number is written with an exponent',
  breaksAt: 5,
  tamper: ({ links }) => rewrite(links, { at: 5, change: (line) => line.replace('"value":51', '"value":5.1e1') }),
}
