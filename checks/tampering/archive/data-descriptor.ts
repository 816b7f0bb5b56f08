import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is followed by a second account of its size',
  layer: 'archive',
  names: 'before it',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.behind = new Uint8Array(16)
    }),
}
