import { REPORT, REPORT_NAME } from '@rillmark/exchange/verify/verify.fixture.ts'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a report is given the number of another entry',
  layer: 'reports',
  names: 'a report the record says was issued',
  tamper: () =>
    refiled((files) => {
      files['reports/issued-19-full.pdf'] = files[`reports/${REPORT_NAME}`] ?? REPORT
      delete files[`reports/${REPORT_NAME}`]
    }),
}
