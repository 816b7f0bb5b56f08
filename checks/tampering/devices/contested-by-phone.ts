import { nextBy, appended } from '../forge.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a phone declares an entry of another contested',
  layer: 'devices',
  names: 'a server',
  tamper: () =>
    appended(nextBy('phone-1', { kind: 'entry.contested', body: structuredClone(entries[12]?.body) as object })),
}
