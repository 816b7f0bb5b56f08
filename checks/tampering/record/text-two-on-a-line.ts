import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'two links stand on one line',
  breaksAt: 3,
  tamper: ({ links }) => rewrite(links, { at: 3, change: (line) => line + JSON.stringify(links[3]) }),
}
