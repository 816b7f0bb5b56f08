import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'the line ends another way',
  breaksAt: 2,
  tamper: ({ links }) => rewrite(links, { at: 2, change: (line) => `${line}\r` }),
}
