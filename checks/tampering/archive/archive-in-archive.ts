import { zipSync } from 'fflate'
import { type PackageWay, sound } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the package is packed into another archive',
  layer: 'archive',
  names: 'an unknown file',
  tamper: () => zipSync({ 'marram-house.zip': [sound, { mtime: new Date(1980, 0, 1) }] }),
}
