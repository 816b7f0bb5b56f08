import { REPORT_NAME } from '@rillmark/exchange/verify/verify.fixture.ts'
import { without } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a report is taken out',
  layer: 'reports',
  names: 'nothing, nor is it listed',
  tamper: () => without(`reports/${REPORT_NAME}`),
}
