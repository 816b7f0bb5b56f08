import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a field no schema knows is added to a body',
  breaksAt: 3,
  tamper: ({ links }) => alter(links, { at: 3, change: ({ entry }) => (entry.body['name'] = 'someone') }),
}
