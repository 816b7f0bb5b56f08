import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the name of a file is in another encoding',
  layer: 'archive',
  names: 'another encoding',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'tree.json')
      file.localName = file.centralName = Uint8Array.of(0xe9, 0x2e, 0x70)
    }),
}
