import type { Way } from '../way.ts'

export const way: Way = {
  title: 'the whole record of another investigation is put in its place',
  breaksAt: 1,
  tamper: ({ other }) => other,
}
