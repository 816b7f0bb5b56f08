import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a letter is exchanged for its Cyrillic look-alike',
  breaksAt: 2,
  tamper: ({ links }) =>
    alter(links, { at: 2, change: ({ entry }) => (entry.body['text'] = String(entry.body['text']).replace('c', 'с')) }),
}
