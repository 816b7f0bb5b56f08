import { PICTURE } from '@rillmark/exchange/verify/verify.fixture.ts'
import { refiled, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a picture is there under two endings',
  layer: 'attachments',
  names: 'the kind its name says',
  tamper: () =>
    refiled((files) => {
      files[pathOf(files, 'attachments/').replace('.png', '.webp')] = PICTURE
    }),
}
