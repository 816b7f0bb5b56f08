import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'two tables exchange their names',
  layer: 'tables',
  names: 'cases.csv',
  tamper: () =>
    refiled((files) => {
      const cases = files['tables/cases.csv'] ?? strToU8('')
      files['tables/cases.csv'] = files['tables/samples.csv'] ?? strToU8('')
      files['tables/samples.csv'] = cases
    }),
}
