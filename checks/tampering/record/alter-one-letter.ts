import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'one letter of a note is altered',
  breaksAt: 2,
  tamper: ({ links }) =>
    alter(links, { at: 2, change: ({ entry }) => (entry.body['text'] = 'Two cases, one building') }),
}
