import { nextBy, appended } from '../forge.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the revoked device settles two accounts for itself',
  layer: 'devices',
  names: 'not revoked',
  tamper: () =>
    appended(
      nextBy('phone-2', {
        kind: 'contest.settled',
        body: { ...(structuredClone(entries[13]?.body) as object), decision: 'second stands' },
      }),
    ),
}
