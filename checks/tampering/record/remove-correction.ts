import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'an amendment is made to look like a first entry',
  breaksAt: 6,
  tamper: ({ links }) => alter(links, { at: 6, change: ({ entry }) => delete entry['corrects'] }),
}
