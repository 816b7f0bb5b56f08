import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the archive is empty',
  layer: 'archive',
  names: 'no end of archive',
  tamper: () => new Uint8Array(),
}
