import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the list of keys is in another encoding',
  layer: 'keys',
  names: 'UTF-8',
  tamper: () =>
    refiled((files) => {
      files['keys.json'] = Uint8Array.of(0xff, 0xfe, 0x7b, 0, 0x7d, 0)
    }),
}
