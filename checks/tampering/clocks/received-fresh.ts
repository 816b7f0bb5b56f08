import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { PARTS, linked } from '@rillmark/exchange/verify/verify.fixture.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'everything is said to have been received a month earlier, with fresh hashes',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () => writePackage(linked(entries, '2026-02-02T12:00:00.000Z'), PARTS),
}
