import { REPORT_NAME } from '@rillmark/exchange/verify/verify.fixture.ts'
import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a report is exchanged for a page that runs',
  layer: 'reports',
  names: 'a PDF',
  tamper: () =>
    refiled((files) => {
      files[`reports/${REPORT_NAME}`] = strToU8('<script>alert(1)</script>')
    }),
}
