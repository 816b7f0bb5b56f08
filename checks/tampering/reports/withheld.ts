import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { PARTS } from '@rillmark/exchange/verify/verify.fixture.ts'
import { type PackageWay, links } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a report is withheld and listed as missing',
  layer: 'reports',
  names: 'not at hand',
  needs: 'caution',
  tamper: () => writePackage(links, { ...PARTS, reports: new Map() }),
}
