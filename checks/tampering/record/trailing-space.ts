import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a space is put after the words of a note',
  breaksAt: 2,
  tamper: ({ links }) =>
    alter(links, { at: 2, change: ({ entry }) => (entry.body['text'] = `${String(entry.body['text'])} `) }),
}
