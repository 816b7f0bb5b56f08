import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'a temperature is raised by a tenth',
  breaksAt: 4,
  tamper: ({ links }) =>
    alter(links, {
      at: 4,
      change: ({ entry }) => (entry.body['reading'] = { kind: 'value', value: 48.6, unit: 'Cel' }),
    }),
}
