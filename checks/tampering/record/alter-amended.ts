import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'an amendment is pointed at another entry',
  breaksAt: 6,
  tamper: ({ links }) =>
    alter(links, {
      at: 6,
      change: ({ entry }) =>
        (entry['corrects'] = { ...(entry['corrects'] as object), entry: '017f22e2-79b0-7cc3-98c4-dc0c0c07398f' }),
    }),
}
