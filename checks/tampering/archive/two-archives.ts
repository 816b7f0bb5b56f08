import { refiled } from '../contents.ts'
import { type PackageWay, sound } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a second archive is put behind the first',
  layer: 'archive',
  names: 'bytes between',
  tamper: () => new Uint8Array(Buffer.concat([sound, refiled(() => undefined)])),
}
