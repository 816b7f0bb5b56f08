import { OTHER_PICTURE } from '@rillmark/exchange/verify/verify.fixture.ts'
import { refiled, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a picture is exchanged for another under its name',
  layer: 'attachments',
  names: 'other bytes',
  tamper: () =>
    refiled((files) => {
      files[pathOf(files, 'attachments/')] = OTHER_PICTURE
    }),
}
