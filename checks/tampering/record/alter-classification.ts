import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a case is made confirmed',
  breaksAt: 3,
  tamper: ({ links }) => alter(links, { at: 3, change: ({ entry }) => (entry.body['classification'] = 'confirmed') }),
}
