import { REPORT_NAME } from '@rillmark/exchange/verify/verify.fixture.ts'
import { strToU8 } from 'fflate'
import { behindManifest } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a report is altered behind the back of the manifest',
  layer: 'files',
  names: 'issued-18-full',
  tamper: () =>
    behindManifest((files) => {
      files[`reports/${REPORT_NAME}`] = strToU8('%PDF-1.7\n% behind\n')
    }),
}
