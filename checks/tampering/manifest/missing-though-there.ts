import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { PICTURE } from '@rillmark/exchange/verify/verify.fixture.ts'
import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest lists a picture as missing that is there',
  layer: 'attachments',
  names: 'listed as missing',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['missing'] = [sha256OfBytes(PICTURE)]
    }),
}
