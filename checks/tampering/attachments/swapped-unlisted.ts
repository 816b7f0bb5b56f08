import { OTHER_PICTURE } from '@rillmark/exchange/verify/verify.fixture.ts'
import { behindManifest, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a picture is exchanged behind the back of the manifest',
  layer: 'files',
  names: 'attachments/',
  tamper: () =>
    behindManifest((files) => {
      files[pathOf(files, 'attachments/')] = OTHER_PICTURE
    }),
}
