import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a comment holds what looks like the end of another archive',
  layer: 'archive',
  names: 'bytes between',
  tamper: () =>
    forgedArchive((archive) => {
      archive.comment = new Uint8Array([0x50, 0x4b, 0x05, 0x06, ...new Uint8Array(18)])
    }),
}
