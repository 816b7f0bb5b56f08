import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the archive is made on another system',
  layer: 'archive',
  names: 'no attributes',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'entries.jsonl')
      file.central.setUint16(4, 0x0314, true)
    }),
}
