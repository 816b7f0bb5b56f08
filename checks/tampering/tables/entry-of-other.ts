import { retext } from '../contents.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a row is said to come from another entry',
  layer: 'tables',
  names: 'results.csv line 2',
  tamper: () =>
    retext('tables/results.csv', (before) => before.replace(String(entries[19]?.id), String(entries[0]?.id))),
}
