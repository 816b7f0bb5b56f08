import { gzipSync } from 'fflate'
import { type PackageWay, sound } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the archive is a gzip file',
  layer: 'archive',
  names: 'no end of archive',
  tamper: () => gzipSync(sound, { mtime: 0 }),
}
