import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a number is turned into text',
  breaksAt: 4,
  tamper: ({ links }) => alter(links, { at: 4, change: ({ entry }) => (entry['deviceSequence'] = '1') }),
}
