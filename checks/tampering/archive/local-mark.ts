import type { PackageWay } from '../package-way.ts'
import { patched } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'the mark before a file is altered',
  layer: 'archive',
  names: 'an archive that ends before them',
  tamper: () => patched((view) => view.setUint8(2, 9)),
}
