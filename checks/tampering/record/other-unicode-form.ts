import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a letter is written as letter and accent instead of one sign',
  breaksAt: 8,
  tamper: ({ links }) =>
    alter(links, { at: 8, change: ({ entry }) => (entry.body['text'] = String(entry.body['text']).normalize('NFD')) }),
}
