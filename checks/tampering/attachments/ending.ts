import { PICTURE } from '@rillmark/exchange/verify/verify.fixture.ts'
import { refiled, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a picture is said to be of another kind',
  layer: 'attachments',
  names: 'the kind its name says',
  tamper: () =>
    refiled((files) => {
      const path = pathOf(files, 'attachments/')
      files[path.replace('.png', '.jpg')] = files[path] ?? PICTURE
      delete files[path]
    }),
}
