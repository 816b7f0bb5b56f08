import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'spaces are put between the parts',
  breaksAt: 2,
  tamper: ({ links }) => rewrite(links, { at: 2, change: (line) => line.replaceAll('":', '": ') }),
}
