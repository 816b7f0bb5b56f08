import { rewrite, type Way } from '../way.ts'

export const way: Way = {
  title: 'the keys are put in another order',
  breaksAt: 2,
  tamper: ({ links }) =>
    rewrite(links, {
      at: 2,
      change: (line) => JSON.stringify(Object.fromEntries(Object.entries(JSON.parse(line) as object).toReversed())),
    }),
}
