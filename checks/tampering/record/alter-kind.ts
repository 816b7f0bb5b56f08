import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the kind of an entry is altered to one with the same fields',
  breaksAt: 2,
  tamper: ({ links }) => alter(links, { at: 2, change: ({ entry }) => (entry['kind'] = 'question.settled') }),
}
