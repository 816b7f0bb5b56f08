import { nextBy, appended } from '../forge.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the server settles two accounts by itself',
  layer: 'devices',
  names: 'its role is server',
  tamper: () =>
    appended(nextBy('server', { kind: 'contest.settled', body: structuredClone(entries[13]?.body) as object })),
}
