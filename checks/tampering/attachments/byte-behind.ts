import { PICTURE } from '@rillmark/exchange/verify/verify.fixture.ts'
import { refiled, pathOf } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'one byte is put behind a picture',
  layer: 'attachments',
  names: 'other bytes',
  tamper: () =>
    refiled((files) => {
      files[pathOf(files, 'attachments/')] = new Uint8Array([...PICTURE, 0])
    }),
}
