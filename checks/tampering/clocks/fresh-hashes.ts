import { linkEntries, emptyHead } from '@rillmark/casebook/chain/link.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { PARTS } from '@rillmark/exchange/verify/verify.fixture.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'all clocks are said to have been right, with fresh hashes',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () =>
    writePackage(
      linkEntries(emptyHead('marram-house'), { entries: [...entries], received: '2026-03-02T12:00:00.000Z' }),
      PARTS,
    ),
}
