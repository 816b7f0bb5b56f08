import type { Way } from '../way.ts'

export const way: Way = {
  title: 'the record is turned round',
  breaksAt: 1,
  tamper: ({ links }) => links.toReversed(),
}
