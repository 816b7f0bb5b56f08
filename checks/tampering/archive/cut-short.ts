import { type PackageWay, sound } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the archive is cut in half',
  layer: 'archive',
  names: 'no end of archive',
  tamper: () => sound.slice(0, Math.floor(sound.length / 2)),
}
