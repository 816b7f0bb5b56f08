import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a field is added to a link',
  breaksAt: 3,
  tamper: ({ links }) => alter(links, { at: 3, change: (link) => (link['remark'] = 'fine') }),
}
