import { OTHER_LABEL } from '@rillmark/exchange/verify/verify.fixture.ts'
import { relined } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a sample is added to the table',
  layer: 'tables',
  names: 'samples.csv line 4',
  tamper: () => relined('tables/samples.csv', (lines) => [...lines, String(lines[2]).replace(OTHER_LABEL, 'MH-R1-03')]),
}
