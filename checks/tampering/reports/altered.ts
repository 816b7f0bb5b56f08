import { REPORT_NAME } from '@rillmark/exchange/verify/verify.fixture.ts'
import { strToU8 } from 'fflate'
import { refiled, text } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a report is altered',
  layer: 'reports',
  names: 'as issued',
  tamper: () =>
    refiled((files) => {
      files[`reports/${REPORT_NAME}`] = strToU8(text(files, `reports/${REPORT_NAME}`).replace('issued', 'edited'))
    }),
}
