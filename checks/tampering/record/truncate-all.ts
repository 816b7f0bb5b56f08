import type { Way } from '../way.ts'

export const way: Way = {
  title: 'everything is cut off',
  breaksAt: 1,
  needsHead: true,
  tamper: () => [],
}
