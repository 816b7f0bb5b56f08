import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is packed one way in front and another in the directory',
  layer: 'archive',
  names: 'two headers',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.local.setUint16(8, 0, true)
    }),
}
