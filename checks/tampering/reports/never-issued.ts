import { REPORT } from '@rillmark/exchange/verify/verify.fixture.ts'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a report nobody issued is put in',
  layer: 'reports',
  names: 'a report the record says was issued',
  tamper: () =>
    refiled((files) => {
      files['reports/final.pdf'] = REPORT
    }),
}
