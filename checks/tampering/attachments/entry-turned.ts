import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { OTHER_PICTURE, PARTS, linked } from '@rillmark/exchange/verify/verify.fixture.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the entry of a photo is made to name another picture, which is put in',
  layer: 'signatures',
  names: 'entry 10',
  tamper: () =>
    writePackage(
      linked(
        entries.map((entry) =>
          entry.kind === 'photo.taken'
            ? { ...entry, body: { ...entry.body, sha256: sha256OfBytes(OTHER_PICTURE) } }
            : entry,
        ),
      ),
      { ...PARTS, attachments: new Map([[sha256OfBytes(OTHER_PICTURE), OTHER_PICTURE]]) },
    ),
}
