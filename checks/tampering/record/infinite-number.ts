import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a number too large for any reader is put in',
  breaksAt: 9,
  tamper: ({ links }) =>
    alter(links, {
      at: 9,
      change: ({ entry }) => (entry.body['calculation'] = { id: 'x', input: Number.POSITIVE_INFINITY, result: 1 }),
    }),
}
