import type { PackageWay } from '../package-way.ts'
import { patched } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'one byte of the end’s mark is altered',
  layer: 'archive',
  names: 'no end of archive',
  tamper: () => patched((view, { end }) => view.setUint8(end + 1, 0x4c)),
}
