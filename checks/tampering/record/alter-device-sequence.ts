import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the number of the device is altered',
  breaksAt: 7,
  tamper: ({ links }) => alter(links, { at: 7, change: ({ entry }) => (entry['deviceSequence'] = 99) }),
}
