import { relined } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a sample is dropped from the table',
  layer: 'tables',
  names: 'samples.csv line 3',
  tamper: () => relined('tables/samples.csv', (lines) => lines.toSpliced(2, 1)),
}
