import type { PackageWay } from '../package-way.ts'
import { patched } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'one byte of the directory’s own mark is altered',
  layer: 'archive',
  names: 'breaks off',
  tamper: () => patched((view, { directory }) => view.setUint8(directory, 0x51)),
}
