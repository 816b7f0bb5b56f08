import type { PackageWay } from '../package-way.ts'
import { forgedArchive, member } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a file is made executable',
  layer: 'archive',
  names: 'no attributes',
  tamper: () =>
    forgedArchive((archive) => {
      const file = member(archive, 'verify.html')
      file.central.setUint32(38, (0o100755 << 16) >>> 0, true)
    }),
}
