import { relined } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'samples stand in another order',
  layer: 'tables',
  names: 'samples.csv line 2',
  tamper: () => relined('tables/samples.csv', (lines) => [...lines.slice(0, 1), ...lines.slice(1).toReversed()]),
}
