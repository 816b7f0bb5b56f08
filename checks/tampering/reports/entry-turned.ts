import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { REPORT_NAME, PARTS, linked } from '@rillmark/exchange/verify/verify.fixture.ts'
import { strToU8 } from 'fflate'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the entry of a report is made to fit another report',
  layer: 'signatures',
  names: 'entry 18',
  tamper: () =>
    writePackage(
      linked(
        entries.map((entry) =>
          entry.kind === 'report.issued'
            ? { ...entry, body: { ...entry.body, sha256: sha256OfBytes(strToU8('%PDF-1.7')) } }
            : entry,
        ),
      ),
      { ...PARTS, reports: new Map([[REPORT_NAME, strToU8('%PDF-1.7')]]) },
    ),
}
