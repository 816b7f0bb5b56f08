import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the words of a note are altered',
  breaksAt: 2,
  tamper: ({ links }) =>
    alter(links, { at: 2, change: ({ entry }) => (entry.body['text'] = 'one case, one building') }),
}
