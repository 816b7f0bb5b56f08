import { swap, type Way } from '../way.ts'

export const way: Way = {
  title: 'the first and the last change places',
  breaksAt: 1,
  tamper: ({ links }) => swap(links, { a: 1, b: 12 }),
}
