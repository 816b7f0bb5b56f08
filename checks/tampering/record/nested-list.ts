import type { Way } from '../way.ts'

export const way: Way = {
  title: 'the links are wrapped in a list',
  breaksAt: 1,
  tamper: ({ links }) => [links],
}
