import { alter, type Way } from '../way.ts'

export const way: Way = {
  title: 'the time an entry was made is moved by a minute',
  breaksAt: 6,
  tamper: ({ links }) =>
    alter(links, { at: 6, change: ({ entry }) => (entry['instant'] = '2026-03-02T08:09:00.000Z') }),
}
