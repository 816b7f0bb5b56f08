import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the unit of a reading is altered',
  breaksAt: 5,
  tamper: ({ links }) =>
    alter(links, {
      at: 5,
      change: ({ entry }) => (entry.body['reading'] = { kind: 'value', value: 51, unit: 'mg/L' }),
    }),
}
