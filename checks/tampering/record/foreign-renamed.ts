import { entriesIn, INVESTIGATION, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'another investigation is renamed to this one, with fresh hashes',
  breaksAt: 12,
  needsHead: true,
  tamper: ({ other }) =>
    relink(
      entriesIn(other).map((entry) => ({ ...entry, investigation: INVESTIGATION, id: entry.id.replace(/^./, 'a') })),
    ),
}
