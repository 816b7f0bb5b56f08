import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file carries sizes in 64 bits beside those in 32',
  layer: 'archive',
  names: 'an extra field',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.centralExtra = new Uint8Array([1, 0, 8, 0, 1, 0, 0, 0, 0, 0, 0, 0])
    }),
}
