import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'a key is written twice, the true value last',
  breaksAt: 3,
  tamper: ({ links }) =>
    rewrite(links, {
      at: 3,
      change: (line) => line.replace('"classification":', '"classification":"confirmed","classification":'),
    }),
}
