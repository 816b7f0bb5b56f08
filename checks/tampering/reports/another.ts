import { REPORT_NAME } from '@rillmark/exchange/verify/verify.fixture.ts'
import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'another report is put in its place',
  layer: 'reports',
  names: 'as issued',
  tamper: () =>
    refiled((files) => {
      files[`reports/${REPORT_NAME}`] = strToU8('%PDF-1.7\n% all is well\n')
    }),
}
