import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is marked as text for others to convert',
  layer: 'archive',
  names: 'no attributes',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'entries.jsonl')
      file.central.setUint16(36, 1, true)
    }),
}
