import type { Way } from '../way.ts'

export const way: Way = {
  title: 'something else stands where a link belongs',
  breaksAt: 5,
  tamper: ({ links }) => links.toSpliced(4, 1, null as never),
}
