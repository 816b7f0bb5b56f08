import { swap, type Way } from '../way.ts'

export const way: Way = {
  title: 'two neighbours change places',
  breaksAt: 3,
  tamper: ({ links }) => swap(links, { a: 3, b: 4 }),
}
