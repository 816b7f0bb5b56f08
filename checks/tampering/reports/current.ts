import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { REPORT, REPORT_NAME, PARTS } from '@rillmark/exchange/verify/verify.fixture.ts'
import { strToU8 } from 'fflate'
import { type PackageWay, links } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a report is put in as the current one',
  layer: 'reports',
  names: 'current-full.pdf was made when the package was',
  needs: 'caution',
  tamper: () =>
    writePackage(links, {
      ...PARTS,
      reports: new Map([
        [REPORT_NAME, REPORT],
        ['current-full.pdf', strToU8('%PDF-1.7\n% all is well\n')],
      ]),
    }),
}
