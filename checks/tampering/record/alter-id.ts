import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the id of an entry is altered',
  breaksAt: 7,
  tamper: ({ links }) =>
    alter(links, { at: 7, change: ({ entry }) => (entry['id'] = '017f22e2-79b0-7cc3-98c4-dc0c0c07398f') }),
}
