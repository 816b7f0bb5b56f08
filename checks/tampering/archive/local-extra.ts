import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file has an extra field in front',
  layer: 'archive',
  names: 'an extra field',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.localExtra = new Uint8Array([0x55, 0x54, 1, 0, 0])
    }),
}
