import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a value is turned into "below"',
  breaksAt: 5,
  tamper: ({ links }) =>
    alter(links, { at: 5, change: ({ entry }) => (entry.body['reading'] = { kind: 'below', limit: 51, unit: 'Cel' }) }),
}
