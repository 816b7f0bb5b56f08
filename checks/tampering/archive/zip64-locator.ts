import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a locator of a second directory stands before the end',
  layer: 'archive',
  names: 'bytes between',
  tamper: () =>
    forgedArchive((archive) => {
      archive.beforeEnd = new Uint8Array([0x50, 0x4b, 0x06, 0x07, ...new Uint8Array(16)])
    }),
}
