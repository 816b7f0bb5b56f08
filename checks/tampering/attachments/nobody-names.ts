import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { OTHER_PICTURE } from '@rillmark/exchange/verify/verify.fixture.ts'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a picture nobody names is put in',
  layer: 'attachments',
  names: 'one it does not name',
  tamper: () =>
    refiled((files) => {
      files[`attachments/${sha256OfBytes(OTHER_PICTURE)}.png`] = OTHER_PICTURE
    }),
}
