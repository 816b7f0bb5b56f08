import { nextBy, appended } from '../forge.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a reader settles two accounts',
  layer: 'devices',
  names: 'its role is reader',
  tamper: () =>
    appended(nextBy('tablet-1', { kind: 'contest.settled', body: structuredClone(entries[13]?.body) as object })),
}
