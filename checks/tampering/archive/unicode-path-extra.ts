import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'an extra field gives a file another name',
  layer: 'archive',
  names: 'an extra field',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.centralExtra = new Uint8Array([0x75, 0x70, 9, 0, 1, 0, 0, 0, 0, ...utf8('evil')])
    }),
}
