import { type PackageWay, sound } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the archive has lost its beginning',
  layer: 'archive',
  names: 'archive',
  tamper: () => sound.slice(40),
}
