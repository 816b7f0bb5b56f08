import { PICTURE } from '@rillmark/exchange/verify/verify.fixture.ts'
import { refiled, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the name of a picture is written in capitals',
  layer: 'archive',
  names: 'an unknown file',
  tamper: () =>
    refiled((files) => {
      const path = pathOf(files, 'attachments/')
      files[path.replace(/[0-9a-f]{64}/, (hash) => hash.toUpperCase())] = PICTURE
      delete files[path]
    }),
}
